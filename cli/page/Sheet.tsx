import { ChartFigure } from "./ChartFigure.js";
import { DataTable } from "./DataTable.js";
import { Findings } from "./Findings.js";
import type { DrawnBlock, DrawnPage } from "./worker/Messages.js";

interface SheetProps {
  readonly page: DrawnPage;
  /** Blocks to be left out, such as tables that the page sets itself. */
  readonly without?: readonly DrawnBlock["kind"][];
}

/** The sections of a report's page. */
export function Sheet({ page, without = [] }: SheetProps) {
  return (
    <>
      {page.sections
        .map(({ heading, blocks }) => ({
          heading,
          blocks: blocks.filter(({ kind }) => !without.includes(kind)),
        }))
        .filter(({ blocks }) => blocks.length > 0)
        .map(({ heading, blocks }) => (
          <section key={heading}>
            <h3>{heading}</h3>
            {blocks.map((block, i) => (
              // Blocks have no name of their own and never change places.
              <Block key={i} block={block} />
            ))}
          </section>
        ))}
    </>
  );
}

function Block({ block }: { readonly block: DrawnBlock }) {
  switch (block.kind) {
    case "text":
      return <p>{block.text}</p>;
    case "list": {
      const List = block.isNumbered ? "ol" : "ul";
      return (
        <List>
          {block.items.map((item) => (
            <li key={item}>{item}</li>
          ))}
        </List>
      );
    }
    case "table":
      return (
        <DataTable
          caption={block.caption}
          columns={uniqueHeadings(block.columns)}
          rows={block.rows.map((cells, i) => ({ key: String(i), cells }))}
        />
      );
    case "chart":
      return <ChartFigure {...block} />;
    case "findings":
      return <Findings findings={block.findings} />;
  }
}

/** Two columns may have one heading; beside a cell of its own each is told apart by the column before it. */
function uniqueHeadings<One extends { readonly heading: string }>(columns: readonly One[]): One[] {
  return columns.map((column, c) => {
    const isAgain = columns.slice(0, c).some(({ heading }) => heading === column.heading);
    return isAgain ? { ...column, heading: `${columns[c - 1]?.heading}: ${column.heading}` } : column;
  });
}
