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

/** A line, point or face in a drawing. */
export interface DrawnMark {
  readonly svg: number;
  readonly what: string;
  /** Of its fill or its edge, whichever stands out more, against the page. */
  readonly contrast: number;
  /** Whether it is a rule of a grid or of an axis, and nothing else. */
  readonly isRule: boolean;
}

/** All that is drawn in sight but texts, with the contrast to the page (WCAG 2.1, relative luminance). */
export function drawnMarks(): DrawnMark[] {
  const channel = (value: number) => (value <= 0.03928 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4);
  const numbersOf = (colour: string) => (colour.match(/[\d.]+/g) ?? []).map(Number);
  const ground = numbersOf(getComputedStyle(document.body).backgroundColor);
  // Nothing is printed where the page has no ground: white paper.
  const paper = (ground[3] ?? 1) === 0 ? [255, 255, 255] : ground;
  const luminance = (rgb: readonly number[]) => {
    const [red = 0, green = 0, blue = 0] = rgb.map((part) => channel(part / 255));
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrastOf = (colour: string, opacity: number) => {
    const [red = 0, green = 0, blue = 0, alpha = 1] = numbersOf(colour);
    const share = alpha * opacity;
    const seen = [red, green, blue].map((part, i) => share * part + (1 - share) * (paper[i] ?? 0));
    const [one, other] = [luminance(seen), luminance(paper.slice(0, 3))];
    return (Math.max(one, other) + 0.05) / (Math.min(one, other) + 0.05);
  };
  return [...document.querySelectorAll("svg")].flatMap((svg, index) => {
    if (svg.getBoundingClientRect().width === 0) return [];
    return [...svg.querySelectorAll("path, rect, circle, ellipse, line, polyline, polygon")].flatMap(
      (mark) => {
        const { width, height } = mark.getBoundingClientRect();
        if (mark.closest("mask, clipPath, defs") !== null || (width === 0 && height === 0)) return [];
        const style = getComputedStyle(mark);
        const opacity = Number(style.opacity);
        const paints = [
          { of: "fill", colour: style.fill, share: opacity * Number(style.fillOpacity), isThere: true },
          {
            of: "stroke",
            colour: style.stroke,
            share: opacity * Number(style.strokeOpacity),
            isThere: Number.parseFloat(style.strokeWidth) > 0,
          },
        ].filter(
          ({ colour, share, isThere }) =>
            isThere && share > 0 && colour !== "none" && (numbersOf(colour)[3] ?? 1) > 0,
        );
        if (paints.length === 0) return [];
        return [
          {
            svg: index,
            what: `<${mark.tagName}> ${paints.map(({ of, colour, share }) => `${of} ${colour} ${share}`).join(", ")}`,
            contrast: Math.max(...paints.map(({ colour, share }) => contrastOf(colour, share))),
            isRule: paints.every(({ of }) => mark.getAttribute(of) === "var(--rule)"),
          },
        ];
      },
    );
  });
}

/** Tables that have to be scrolled sideways. */
export function scrolledTables(): string[] {
  return [...document.querySelectorAll(".scroll")]
    .filter((box) => box.scrollWidth > box.clientWidth + 1)
    .map((box) => `${box.getAttribute("aria-label")}: ${box.scrollWidth} in ${box.clientWidth}`);
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
