// Where the edition in one file keeps a season: in this browser (IndexedDB), record by record, or in memory alone for the
// invented season and for a browser that keeps nothing. Nothing that was kept is ever changed.

/** One record as the core wrote it. */
export interface StoredRecord {
  id: number;
  [field: string]: unknown;
}

/** What was last handed to the browser as a file. */
export interface SavedCopy {
  /** Number of the newest record in it. */
  id: number;
  at: string;
  name: string;
}

export interface SeasonStore {
  /** False: gone when the page is closed. */
  lasting: boolean;
  newest(): Promise<number>;
  after(id: number): Promise<StoredRecord[]>;
  /** Keeps all or none. False when another page has added to the season since `newest`: nothing is kept then. */
  append(newest: number, records: StoredRecord[]): Promise<boolean>;
  copy(): Promise<SavedCopy | null>;
  setCopy(copy: SavedCopy): Promise<void>;
  clear(): Promise<void>;
}

export function memoryStore(records: StoredRecord[] = []): SeasonStore {
  let kept = [...records];
  let saved: SavedCopy | null = null;
  return {
    lasting: false,
    newest: async () => kept.length,
    after: async (id) => kept.slice(id),
    append: async (newest, more) => {
      if (newest !== kept.length) return false;
      kept.push(...more);
      return true;
    },
    copy: async () => saved,
    setCopy: async (copy) => void (saved = copy),
    clear: async () => {
      kept = [];
      saved = null;
    },
  };
}

const done = <T>(request: IDBRequest<T>) =>
  new Promise<T>((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error("storage"));
  });

const finished = (work: IDBTransaction) =>
  new Promise<void>((resolve, reject) => {
    work.oncomplete = () => resolve();
    work.onerror = work.onabort = () => reject(work.error ?? new Error("storage"));
  });

/** The newest id inside a transaction. */
async function newestIn(work: IDBTransaction): Promise<number> {
  const cursor = await done(work.objectStore("records").openKeyCursor(null, "prev"));
  return cursor ? (cursor.key as number) : 0;
}

/** The season of this browser. Rejects where the browser forbids storage. */
export async function browserStore(): Promise<SeasonStore> {
  const opening = indexedDB.open("redd-season", 1);
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore("records", { keyPath: "id" });
    opening.result.createObjectStore("facts");
  };
  const base = await done(opening);
  // "strict": an entry counts as kept once it is on the disk.
  const work = (stores: string[], mode: IDBTransactionMode) => base.transaction(stores, mode, { durability: "strict" });
  return {
    lasting: true,
    newest: () => newestIn(work(["records"], "readonly")),
    after: (id) =>
      done(
        work(["records"], "readonly").objectStore("records").getAll(IDBKeyRange.lowerBound(id, true)) as IDBRequest<
          StoredRecord[]
        >,
      ),
    async append(newest, records) {
      const writing = work(["records"], "readwrite");
      const end = finished(writing);
      if ((await newestIn(writing)) !== newest) {
        await end;
        return false;
      }
      for (const record of records) writing.objectStore("records").add(record);
      await end;
      return true;
    },
    copy: async () =>
      ((await done(work(["facts"], "readonly").objectStore("facts").get("copy"))) as SavedCopy | undefined) ?? null,
    async setCopy(copy) {
      const writing = work(["facts"], "readwrite");
      writing.objectStore("facts").put({ ...copy }, "copy");
      await finished(writing);
    },
    async clear() {
      const writing = work(["records", "facts"], "readwrite");
      writing.objectStore("records").clear();
      writing.objectStore("facts").clear();
      await finished(writing);
    },
  };
}
