import { useRef, useState } from "preact/hooks";

interface FilePickerProps {
  readonly label: string;
  readonly hint: string;
  readonly accept: string;
  readonly isSingle?: boolean;
  readonly onFiles: (files: readonly File[]) => void;
}

/** Sounds that are read: WAV here, the others by the browser. */
export const SOUND_FILES = "audio/*,.wav,.wave,.rf64,.bw64,.m4a,.mp3,.flac,.ogg,.opus";

/** A button to choose files with, in a place to drop them on. */
export function FilePicker({ label, hint, accept, isSingle = false, onFiles }: FilePickerProps) {
  const input = useRef<HTMLInputElement>(null);
  const [isOver, setIsOver] = useState(false);
  const hand = (files: FileList | null | undefined) => {
    const list = [...(files ?? [])];
    if (list.length > 0) onFiles(isSingle ? list.slice(0, 1) : list);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping has the button beside it for whoever can't drag
    <div
      class={`drop${isOver ? " over" : ""}`}
      onDragOver={(event) => {
        event.preventDefault();
        setIsOver(true);
      }}
      onDragLeave={() => setIsOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setIsOver(false);
        hand(event.dataTransfer?.files);
      }}
    >
      <button type="button" class="main" onClick={() => input.current?.click()}>
        {label}
      </button>
      <input
        ref={input}
        type="file"
        hidden
        accept={accept}
        multiple={!isSingle}
        onChange={({ currentTarget }) => {
          hand(currentTarget.files);
          // The same file may be chosen again.
          currentTarget.value = "";
        }}
      />
      <span>{hint}</span>
    </div>
  );
}
