import { advance, type BenchEvent, type Session } from "../../bench/session";
import { begun, pooled, pooledApart } from "../../fixtures/bench";
import { example } from "../example";
import BenchResults from "./BenchResults.svelte";

const at = Date.parse("2031-01-30T15:00:00Z");
const after = (session: Session, ...events: BenchEvent[]) =>
  [...events, { do: "check" } as const].reduce(advance, session);
const read = (test: string, team: number, value: number): BenchEvent => ({
  do: "read",
  test,
  team,
  value: test === "kh" ? { form: "drops", value } : { form: "step", value },
  at,
});
const teams = ["Team Otter", "The team with the very long label from the end of the corridor"];
const still = {
  saving: false,
  problems: [],
  pool: async () => ({ ok: true as const, value: pooled }),
  onevent: () => undefined,
  onsave: () => undefined,
  onfinish: () => undefined,
};
const two = after(begun(at), read("nitrite", 0, 0.09), read("kh", 0, 4), { do: "leave_out", test: "ph" });
const first = two.tests.reduce((session, test) => advance(session, { do: "saved", test, team: 0, id: 7 }), two);

export const examples = [
  example(BenchResults, "one reading each, one test left out", { ...still, session: two }, [
    "Save 2 readings",
    "Not read",
    "4 drops",
  ]),
  example(BenchResults, "teams far apart", {
    ...still,
    session: after(begun(at, teams), read("nitrite", 0, 0), read("nitrite", 1, 0.7)),
    pool: async () => ({ ok: true as const, value: pooledApart }),
  }),
  example(BenchResults, "teams, nobody to take them together", {
    ...still,
    session: after(begun(at, teams), read("nitrite", 0, 0.03), read("nitrite", 1, 0.09)),
    pool: async () => ({ ok: false as const, problems: [] }),
  }),
  example(
    BenchResults,
    "one team is missing: nothing is shown",
    {
      ...still,
      session: after(begun(at, teams), read("nitrite", 0, 0.03)),
    },
    ["Hand the tablet to The team with"],
  ),
  example(
    BenchResults,
    "no connection",
    {
      ...still,
      session: two,
      problems: [{ code: "no_connection", field: "", sentence: "No connection." }],
    },
    ["kept on this device"],
  ),
  example(BenchResults, "saved", { ...still, session: first }, ["2 readings are saved."]),
  example(BenchResults, "nothing was read", { ...still, session: after(begun(at)) }, ["Nothing was read."]),
];
