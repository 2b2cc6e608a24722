import { useEffect, useMemo, useState } from "preact/hooks";
import { Cupboard, type Keeping } from "./keep/Cupboard.js";
import type { Kept, KeptKind } from "./keep/Kept.js";

/** What is kept, and how to change it. */
export interface Keep {
  /** Null where the browser keeps nothing, or until it has answered. */
  readonly kept: Kept | null;
  readonly usedBytes: number | null;
  put(things: Partial<Kept>): Promise<Keeping>;
  remove(kind: KeptKind, id: string): Promise<void>;
}

/** Reads what is kept, again after every change, here or in another window. */
export function useKept(): Keep {
  const [kept, setKept] = useState<Kept | null>(null);
  const [usedBytes, setUsedBytes] = useState<number | null>(null);
  const look = async () => {
    setKept(await cupboard.all());
    const { usage } = (await navigator.storage?.estimate?.()) ?? {};
    setUsedBytes(usage ?? null);
  };
  const cupboard = useMemo(() => new Cupboard(() => void look()), []);
  useEffect(() => void look(), []);
  return {
    kept,
    usedBytes,
    put: async (things) => {
      const keeping = await cupboard.put(things);
      await look();
      return keeping;
    },
    remove: async (kind, id) => {
      await cupboard.remove(kind, id);
      await look();
    },
  };
}
