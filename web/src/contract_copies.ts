// Shapes of a saved season and of taking one in (docs/openapi.json: Export, TakenIn).

export interface SeasonFile {
  redd_season: number;
  title: string;
  resources: { name: string; data: unknown[] }[];
}

export interface TakenIn {
  added: number;
  known: number;
  /** Labels among them that look like personal data: kept, and told. */
  warnings?: string[];
}
