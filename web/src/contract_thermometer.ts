// Shapes of the live thermometer (docs/openapi.json: Thermometer).

export interface TemperatureSaid {
  c: number;
  text: string;
}

export interface RingingAlarm {
  alarm: "too_warm" | "too_cold" | "silent" | "stuck";
  sentence: string;
  since: string;
  quiet: boolean;
}

export interface SentAlarm {
  way: "desktop" | "mail" | "webhook";
  /** Why it did not go out; null: it did. */
  failure: string | null;
}

export interface Thermometer {
  set_up: boolean;
  name: string;
  standing: "no_word_yet" | "working" | "silent" | "stuck";
  problems: string[];
  last: (TemperatureSaid & { at: string }) | null;
  failing: string | null;
  limits: { low: TemperatureSaid; high: TemperatureSaid; from_season: boolean } | null;
  alarms: RingingAlarm[];
  sent: SentAlarm[];
  sent_at: string | null;
}
