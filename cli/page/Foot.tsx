import { words } from "./words.js";

declare const __GURDYBENCH_VERSION__: string;

const { foot: said } = words;

/** Care, licence, source and the notices of what was built in. */
export function Foot() {
  return (
    <footer>
      <p>{said.nothing}</p>
      <p>
        {words.name} {__GURDYBENCH_VERSION__}. <a href="./licence.txt">{said.licence}</a>.{" "}
        <a href="./source.tar.gz" download>
          {said.source}
        </a>
        . <a href="./third-party-notices.txt">{said.notices}</a>.
      </p>
    </footer>
  );
}
