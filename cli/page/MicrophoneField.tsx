import { FilePicker } from "./FilePicker.js";
import { TakeOff } from "./TakeOff.js";
import { words } from "./words.js";
import type { AskedMicrophone } from "./worker/Messages.js";

const { microphone: said } = words;
/** A response is a table of some hundred lines. */
const MOST_BYTES = 1 << 20;

interface MicrophoneFieldProps {
  /** Null where none is chosen. */
  readonly chosen: AskedMicrophone | null;
  readonly onChoose: (microphone: AskedMicrophone | null) => void;
}

/** The response of the microphone, from the file that its maker gives. */
export function MicrophoneField({ chosen, onChoose }: MicrophoneFieldProps) {
  return (
    <>
      <p>{said.lead}</p>
      <FilePicker
        label={said.choose}
        hint=""
        accept=".txt,.csv,.cal,.frd,text/plain"
        isSingle
        onFiles={([file]) => {
          // What is too large is no such table, and the reading says so of its beginning.
          void file
            ?.slice(0, MOST_BYTES)
            .text()
            .then((text) => onChoose({ name: file.name, text }));
        }}
      />
      <TakeOff chosen={chosen} onTakeOff={() => onChoose(null)} />
    </>
  );
}
