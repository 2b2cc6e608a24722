import { words } from "./words.js";

interface NoticeProps {
  readonly text: string;
  readonly onClose: () => void;
}

/** What came of what was done last, in sight however far the page is scrolled, until it is closed. */
export function Notice({ text, onClose }: NoticeProps) {
  return (
    <div class="notice" role="alert">
      <p>{text}</p>
      <button type="button" onClick={onClose}>
        {words.closeNotice}
      </button>
    </div>
  );
}
