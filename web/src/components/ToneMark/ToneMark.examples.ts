import type { Example } from "../example";
import ToneMark from "./ToneMark.svelte";

const tones = ["alarm", "act", "watch", "good", "unknown"] as const;
export const examples: Example[] = tones.map((tone) => ({
  name: tone,
  component: ToneMark,
  props: { tone, size: 64, words: true },
}));
