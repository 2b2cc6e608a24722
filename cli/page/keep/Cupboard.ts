import { type Kept, type KeptKind, keptKinds } from "./Kept.js";

const NAME = "gurdybench";
/** The second one has a place for logs. */
const VERSION = 2;

/** Whether something could be kept. */
export type Keeping = "kept" | "full" | "unavailable";

/**
 * What the browser keeps for this page. Other windows of it are told of changes, and tell of theirs.
 */
export class Cupboard {
  readonly #database: Promise<IDBDatabase | null>;
  readonly #others = new BroadcastChannel(NAME);

  /** @param onChange - something was put in or thrown away in another window */
  constructor(onChange: () => void) {
    this.#database = open();
    this.#others.onmessage = onChange;
  }

  /** @returns null where the browser keeps nothing */
  async all(): Promise<Kept | null> {
    const database = await this.#database;
    if (database === null) return null;
    const [instruments, takes, readings, logs] = await Promise.all(
      keptKinds.map((kind) => settled(database.transaction(kind).objectStore(kind).getAll())),
    );
    const newest = <One extends { keptAt: number }>(list: One[]) => list.sort((a, b) => b.keptAt - a.keptAt);
    return {
      instruments: newest(instruments as never),
      takes: newest(takes as never),
      readings: newest(readings as never),
      logs: newest(logs as never),
    };
  }

  /** Puts things in, all or none; one of the same id is replaced. */
  async put(things: Partial<Record<KeptKind, readonly { readonly id: string }[]>>): Promise<Keeping> {
    const database = await this.#database;
    if (database === null) return "unavailable";
    try {
      await changed(database, (store) => {
        for (const kind of keptKinds) for (const one of things[kind] ?? []) store(kind).put(one);
      });
    } catch (error) {
      return error instanceof DOMException && error.name === "QuotaExceededError" ? "full" : "unavailable";
    }
    this.#others.postMessage("changed");
    // Asked for, it is not thrown away where the device runs out of room.
    void navigator.storage?.persist?.().catch(() => {});
    return "kept";
  }

  async remove(kind: KeptKind, id: string): Promise<void> {
    const database = await this.#database;
    if (database === null) return;
    await changed(database, (store) => store(kind).delete(id));
    this.#others.postMessage("changed");
  }
}

function open(): Promise<IDBDatabase | null> {
  return new Promise((resolve) => {
    try {
      const request = indexedDB.open(NAME, VERSION);
      request.onupgradeneeded = () => {
        const { objectStoreNames } = request.result;
        for (const kind of keptKinds)
          if (!objectStoreNames.contains(kind)) request.result.createObjectStore(kind, { keyPath: "id" });
      };
      request.onsuccess = () => {
        // A newer page in another window wants to change the stores: this one lets go.
        request.result.onversionchange = () => request.result.close();
        resolve(request.result);
      };
      request.onerror = () => resolve(null);
    } catch {
      resolve(null);
    }
  });
}

function settled<Result>(request: IDBRequest<Result>): Promise<Result> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
}

function changed(
  database: IDBDatabase,
  change: (store: (kind: KeptKind) => IDBObjectStore) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const transaction = database.transaction([...keptKinds], "readwrite");
    transaction.oncomplete = () => resolve();
    transaction.onabort = () => reject(transaction.error);
    try {
      change((kind) => transaction.objectStore(kind));
    } catch (error) {
      transaction.abort();
      reject(error);
    }
  });
}
