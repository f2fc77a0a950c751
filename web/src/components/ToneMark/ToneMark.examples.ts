import type { Tone } from "../../contract";
import { t } from "../../messages";
import { example } from "../example";
import ToneMark from "./ToneMark.svelte";

const tones: Tone[] = ["alarm", "act", "watch", "good", "unknown"];
export const examples = tones.map((tone) => example(ToneMark, t.tone[tone], { tone, size: 64, words: true }));
