#!/bin/sh
# Remakes the files beside this script with encoders that are not ours. See README.md for their versions.
# Signal: channel c (from 0), frame n: 0.9 sin(2 pi (c + 1) (n + 0.5) / 64), 64 frames.
set -eu
cd "$(dirname "$0")"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

sine() { # CHANNELS: 64 frames of raw 64-bit floats, little endian
  node -e '
    const channels = Number(process.argv[1]);
    const samples = Float64Array.from({ length: 64 * channels }, (_, i) =>
      0.9 * Math.sin((2 * Math.PI * ((i % channels) + 1) * (Math.floor(i / channels) + 0.5)) / 64));
    process.stdout.write(new Uint8Array(samples.buffer));' "$1" >"$work/$1.f64"
}
for channels in 1 2 6; do sine "$channels"; done

# --- ffmpeg
encode() { # CHANNELS RATE CODEC FILE [OPTION...]
  channels=$1 rate=$2 codec=$3 file=$4
  shift 4
  ffmpeg -v error -y -f f64le -ar "$rate" -ac "$channels" -i "$work/$channels.f64" -fflags +bitexact \
    -c:a "$codec" "$@" "$file"
}
encode 1 8000 pcm_u8 ffmpeg-u8-mono.wav
encode 2 44100 pcm_s16le ffmpeg-s16-stereo.wav
encode 2 96000 pcm_s24le ffmpeg-s24-stereo-extensible.wav
encode 1 192000 pcm_s32le ffmpeg-s32-mono-extensible.wav
encode 2 48000 pcm_f32le ffmpeg-f32-stereo.wav
encode 1 48000 pcm_f64le ffmpeg-f64-mono.wav
encode 6 48000 pcm_s16le ffmpeg-s16-six-extensible.wav
encode 2 48000 pcm_s24le ffmpeg-s24-stereo-rf64.wav -rf64 always
encode 1 8000 pcm_alaw ffmpeg-alaw-mono.wav
encode 1 8000 pcm_mulaw ffmpeg-mulaw-mono.wav
encode 1 8000 adpcm_ima_wav ffmpeg-ima-adpcm.wav
encode 1 8000 adpcm_ms ffmpeg-ms-adpcm.wav
# A pipe cannot be sought back in, so that the sizes stay unset.
ffmpeg -v error -f f64le -ar 48000 -ac 1 -i "$work/1.f64" -fflags +bitexact -c:a pcm_s16le -f wav - |
  cat >ffmpeg-s16-mono-pipe.wav

# --- libsndfile (it reads no raw file: ffmpeg puts a header before the same samples)
for channels in 1 2; do
  ffmpeg -v error -y -f f64le -ar 48000 -ac "$channels" -i "$work/$channels.f64" -c:a pcm_f64be "$work/$channels.au"
done
sndfile-convert -float32 "$work/2.au" "$work/x.wavex" && mv "$work/x.wavex" sndfile-f32-stereo-extensible.wav
sndfile-convert -float64 "$work/1.au" "$work/x.wavex" && mv "$work/x.wavex" sndfile-f64-mono-extensible.wav
sndfile-convert -pcm24 "$work/1.au" "$work/x.wavex" && mv "$work/x.wavex" sndfile-s24-mono-extensible.wav
sndfile-convert -alaw "$work/2.au" "$work/x.wavex" && mv "$work/x.wavex" sndfile-alaw-stereo-extensible.wav
sndfile-convert -ulaw "$work/2.au" "$work/x.wavex" && mv "$work/x.wavex" sndfile-mulaw-stereo-extensible.wav
sndfile-convert -pcm24 "$work/2.au" "$work/x.rf64" && mv "$work/x.rf64" sndfile-s24-stereo-rf64.wav
sndfile-convert -float32 "$work/1.au" "$work/x.rf64" && mv "$work/x.rf64" sndfile-f32-mono-rf64.wav
sndfile-convert -endian=big -pcm24 "$work/2.au" "$work/x.wav" && mv "$work/x.wav" sndfile-s24-stereo-rifx.wav
sndfile-convert -endian=big -float64 "$work/1.au" "$work/x.wav" && mv "$work/x.wav" sndfile-f64-mono-rifx.wav
sndfile-convert -gsm610 "$work/1.au" "$work/x.wav" >/dev/null && mv "$work/x.wav" sndfile-gsm610.wav

# --- sox (-D: no dither)
from() { # CHANNELS
  sox_input="-t f64 -r 48000 -c $1 $work/$1.f64"
}
from 1
sox -V1 -D $sox_input -b 16 -B sox-s16-mono-rifx.wav
sox -V1 -D $sox_input -b 8 sox-u8-mono.wav
sox -V1 -D $sox_input -e a-law sox-alaw-mono.wav
cat "$work/1.f64" | sox -V1 -D -t f64 -r 48000 -c 1 - -b 16 -t wav - | cat >sox-s16-mono-pipe.wav
from 2
sox -V1 -D $sox_input -b 24 -B sox-s24-stereo-extensible-rifx.wav
sox -V1 -D $sox_input -b 32 -e floating-point -B sox-f32-stereo-rifx.wav
sox -V1 -D $sox_input -b 32 -e signed-integer sox-s32-stereo-extensible.wav

# --- all 256 codes of ITU-T G.711, decoded to 16 bits
node -e 'process.stdout.write(Uint8Array.from({ length: 256 }, (_, i) => i))' >"$work/codes.raw"
for law in alaw mulaw; do
  ffmpeg -v error -y -f "$law" -ar 8000 -ac 1 -i "$work/codes.raw" -f s16le "g711-$law-ffmpeg.s16"
done
sox -V1 -D -t al -r 8000 -c 1 "$work/codes.raw" -t s16 g711-alaw-sox.s16
sox -V1 -D -t ul -r 8000 -c 1 "$work/codes.raw" -t s16 g711-mulaw-sox.s16
