// Shapes of taking a table in (docs/openapi.json: TablePreview and its neighbours).

export interface TableColumn {
  header: string;
  role: "date" | "time" | "";
  samples: string[];
}

export interface TableGuess {
  /** Name of the setting that decides it; "columns/<header>" for what a column holds. */
  key: string;
  value: string;
  certainty: "given" | "certain" | "likely" | "open";
  reason: string;
  alternatives: string[];
}

export interface TablePreview {
  kind: "readings_long" | "readings_wide" | "temperature_logger";
  columns: TableColumn[];
  meanings: { word: string; label: string }[];
  guesses: TableGuess[];
  good: { line: number; at: string; text: string }[];
  bad: { line: number; column: string; cell: string; code: string; sentence: string }[];
  notes: string[];
  good_count: number;
  bad_count: number;
  entry_count: number;
}

export type TableSettings = Record<string, string>;
