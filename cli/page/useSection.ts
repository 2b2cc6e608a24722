import { useEffect, useState } from "preact/hooks";

/** The parts of the bench, in their order. */
export const sections = ["take", "read", "compare", "keyboard", "more", "keep"] as const;

/** One of {@link sections}. */
export type Section = (typeof sections)[number];

/** The part that is shown: its name stands in the address, so that the browser's back key goes to the one before. */
export function useSection(): readonly [Section, (section: Section) => void] {
  const here = () => sections.find((name) => `#${name}` === location.hash) ?? "take";
  const [section, setSection] = useState<Section>(here);
  useEffect(() => {
    const follow = () => {
      setSection(here());
      scrollTo(0, 0);
    };
    addEventListener("hashchange", follow);
    return () => removeEventListener("hashchange", follow);
  }, []);
  return [
    section,
    (next) => {
      location.hash = next;
    },
  ];
}
