/// <reference lib="dom" />
// What is read off a page. These run in the browser: each stands for itself and uses nothing from outside.

/** A text in a drawing and where it stands. */
export interface DrawnText {
  readonly svg: number;
  readonly text: string;
  readonly fontPixels: number;
  readonly contrast: number;
  /** Left, top, right, bottom, in pixels of the window. */
  readonly box: readonly [number, number, number, number];
  readonly svgBox: readonly [number, number, number, number];
}

/** Texts of all drawings in sight, with the contrast to the page (WCAG 2.1, relative luminance). */
export function drawnTexts(): DrawnText[] {
  const channel = (value: number) => (value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
  const luminance = (colour: string) => {
    const [red = 0, green = 0, blue = 0, alpha = 1] = (colour.match(/[\d.]+/g) ?? []).map(Number);
    // Nothing is printed where the page has no ground: white paper.
    const [r, g, b] =
      alpha === 0
        ? [1, 1, 1]
        : ([red, green, blue].map((part) => channel(part / 255)) as [number, number, number]);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const paper = luminance(getComputedStyle(document.body).backgroundColor);
  const boxOf = (element: Element) => {
    const { left, top, right, bottom } = element.getBoundingClientRect();
    return [left, top, right, bottom] as const;
  };
  return [...document.querySelectorAll("svg")].flatMap((svg, index) => {
    const svgBox = boxOf(svg);
    if (svgBox[2] === svgBox[0]) return [];
    const scale = (svgBox[2] - svgBox[0]) / svg.viewBox.baseVal.width;
    return [...svg.querySelectorAll("text")].map((text) => {
      const style = getComputedStyle(text);
      const ink = luminance(style.fill);
      return {
        svg: index,
        text: text.textContent ?? "",
        fontPixels: Number.parseFloat(style.fontSize) * scale,
        contrast: (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05),
        box: boxOf(text),
        svgBox,
      };
    });
  });
}

/** Widths of the document and of the window. */
export function documentWidths(): { readonly needed: number; readonly window: number } {
  return {
    needed: Math.max(document.documentElement.scrollWidth, document.body.scrollWidth),
    window: document.documentElement.clientWidth,
  };
}

/** What would be cut on paper: elements with more in them than they are wide, what may break inside, what is too tall. */
export function cutOnPaper(pageHeightPixels: number): string[] {
  const cut: string[] = [];
  const say = (element: Element) =>
    `<${element.tagName.toLowerCase()}> ${(element.textContent ?? "").slice(0, 40)}`;
  for (const element of document.querySelectorAll("main *, header *, footer *")) {
    if (element.closest("svg") !== null && element.tagName !== "svg") continue;
    const { right, left, height } = element.getBoundingClientRect();
    if (right > document.documentElement.clientWidth + 1 || left < -1)
      cut.push(`beyond the edge: ${say(element)}`);
    if (
      element instanceof HTMLElement &&
      element.scrollWidth > element.clientWidth + 1 &&
      element.clientWidth > 0
    ) {
      cut.push(`wider inside than outside: ${say(element)}`);
    }
    if (element.matches("tr, figure")) {
      if (getComputedStyle(element).breakInside !== "avoid") cut.push(`may break inside: ${say(element)}`);
      if (height > pageHeightPixels) cut.push(`taller than a page: ${say(element)}`);
    }
    if (element.matches("thead") && getComputedStyle(element).display !== "table-header-group") {
      cut.push(`heads are not repeated: ${say(element)}`);
    }
  }
  return cut;
}

/** All text of the page that is to be seen, spaces as one. */
export function seenText(): string {
  // biome-ignore lint/performance/useDomNodeTextContent: what is hidden is not seen; only innerText leaves it out
  return document.body.innerText.replaceAll(/\s+/g, " ");
}
