import { words } from "./words.js";

interface Finding {
  readonly severity: "info" | "warning" | "problem";
  readonly message: string;
}

/** Findings, gravest first. */
export function Findings({ findings }: { readonly findings: readonly Finding[] }) {
  const order = ["problem", "warning", "info"] as const;
  return (
    <>
      {order.flatMap((severity) =>
        findings
          .filter((one) => one.severity === severity)
          .map(({ message }) => (
            <p key={message} class={`finding ${severity}`}>
              <b>{words.sheet[severity]}</b> {message}
            </p>
          )),
      )}
    </>
  );
}
