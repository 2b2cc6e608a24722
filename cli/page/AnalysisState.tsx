import type { Analysis } from "./useAnalysis.js";

interface AnalysisStateProps {
  readonly analysis: Analysis<unknown>;
  /** What is being done. */
  readonly busy: string;
  readonly stop: string;
}

/** How far something is that is being worked out, with a button to stop it; or why it could not be done. */
export function AnalysisState({ analysis, busy, stop }: AnalysisStateProps) {
  const { share, fault } = analysis;
  return (
    <>
      {share !== null && (
        <div role="status" class="row">
          <p>{busy}</p>
          <progress value={share} max={1} aria-label={busy} />
          <p class="actions">
            <button type="button" onClick={analysis.stop}>
              {stop}
            </button>
          </p>
        </div>
      )}
      {fault !== null && (
        <p class="finding problem" role="alert">
          {fault}
        </p>
      )}
    </>
  );
}
