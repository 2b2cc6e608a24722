import * as z from "zod";

/** How documents hold the container and codec of a take; null where it did not come from a file. */
export const encodingSchema = z
  .object({
    container: z.string().describe("WAV, MP4 (M4A), MP3, FLAC or OGG, by the file's bytes"),
    codec: z.string().describe("As PCM, AAC, MP3, FLAC, Vorbis, Opus"),
  })
  .nullable();
