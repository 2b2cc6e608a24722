import { useLayoutEffect, useRef } from "preact/hooks";
import type { DrawnBlock } from "./worker/Messages.js";

type DrawnChart = Extract<DrawnBlock, { readonly kind: "chart" }>;

/**
 * A chart as the report draws it, for a desk and for a phone; style shows one of the two. The page's policy lets no text carry style of its own,
 * so what the drawing says of style is set on its elements one by one.
 */
export function ChartFigure({ title, description, wideSvg, narrowSvg }: DrawnChart) {
  const figure = useRef<HTMLElement>(null);
  useLayoutEffect(() => {
    for (const [place, svg] of [
      [".wide", wideSvg],
      [".narrow", narrowSvg],
    ] as const) {
      const box = figure.current?.querySelector(place);
      if (!box) continue;
      // The drawing's own sheet says only what a pointer over it would change.
      box.innerHTML = svg.replaceAll(/<style[\s\S]*?<\/style>/g, "").replaceAll(' style="', ' data-style="');
      for (const element of box.querySelectorAll<SVGElement>("[data-style]")) {
        element.style.cssText = element.dataset.style ?? "";
        delete element.dataset.style;
      }
    }
  }, [wideSvg, narrowSvg]);
  return (
    <figure ref={figure}>
      <div class="wide" />
      <div class="narrow" />
      <figcaption>
        <b>{title}.</b> {description}
      </figcaption>
    </figure>
  );
}
