import type { MadeCopy } from "../../contract_copies";
import { longDay } from "../../days";
import { t } from "../../messages";
import { example } from "../example";
import MadeCopies from "./MadeCopies.svelte";

const copy = (number: number, day: string, more: Partial<MadeCopy> = {}): MadeCopy => ({
  number,
  made_at: `${day}T15:05:00Z`,
  made_text: `${longDay(day)}, 08:05`,
  why: "daily",
  why_text: "of the day",
  records: 10 * number,
  state: "whole",
  state_text: "whole",
  ...more,
});

export const examples = [
  example(MadeCopies, "none yet", { copies: [] }, [t.copies.made.none]),
  example(MadeCopies, "all whole", { copies: [copy(3, "2031-02-05"), copy(2, "2031-02-04"), copy(1, "2031-01-31")] }, [
    t.copies.made.newest(`${longDay("2031-02-05")}, 08:05`),
    t.copies.made.all(3),
  ]),
  example(
    MadeCopies,
    "two that are not whole",
    {
      copies: [
        copy(4, "2031-02-06", { state: "damaged", state_text: "DAMAGED", records: null }),
        copy(3, "2031-02-05", { why: "before_restore", why_text: "before a restore" }),
        copy(2, "2031-02-04", { state: "unreadable", state_text: "A newer Redd wrote it.", records: null }),
        copy(1, "2031-01-31", {
          why: "damaged",
          why_text: "bytes of a damaged file",
          state: "bytes_only",
          state_text: "for “redd salvage”",
          records: null,
        }),
      ],
    },
    [t.copies.made.bad(2, "4, 2"), "–"],
  ),
];
