import { begun } from "../../fixtures/bench";
import { advance, type BenchEvent, type Session } from "../../bench/session";
import { example } from "../example";
import BenchLane from "./BenchLane.svelte";

const at = Date.parse("2031-01-30T15:00:00Z");
const after = (session: Session, ...events: BenchEvent[]) => events.reduce(advance, session);
const done = (seconds: number): BenchEvent => ({ do: "step_done", lane: 0, at: at + seconds * 1000 });
const still = { lane: 0, listens: false, onevent: () => undefined };
const hereAt = (seconds: number) => ({ ...still, now: at + seconds * 1000 });

const filled = after(begun(at), done(20));
const mixing = after(filled, done(40), { do: "timer", lane: 0, at: at + 41_000 });
const waits = after(mixing, done(55));
const counting = after(waits, done(56));
const read = after(
  waits,
  { do: "read", test: "kh", team: 0, value: { form: "drops", value: 4 }, at: at + 90_000 },
  done(90),
  { do: "read", test: "ph", team: 0, value: { form: "number", value: 7.2 }, at: at + 130_000 },
  done(130),
);
const teams = ["Team Otter", "Team Heron"];
const forTeams = after(begun(at, teams), done(20), done(40), done(55));

export const examples = [
  example(BenchLane, "a step", { ...hereAt(5), session: begun(at) }, ["Rinse the tube", "step 1 of 3"]),
  example(BenchLane, "drops the card asks for", { ...hereAt(25), session: filled }, ["0 of 5 drops"]),
  example(BenchLane, "mixing", { ...hereAt(44), session: mixing }, ["0:07", "Keep going"]),
  example(BenchLane, "counting until the colour turns, a timer beside it", { ...hereAt(70), session: counting }, [
    "3:45",
  ]),
  example(BenchLane, "waiting", { ...hereAt(150), session: read }, ["Nothing to do until"]),
  example(BenchLane, "a colour to be read in time, ringing", { ...hereAt(330), session: read, rings: true }, [
    "read within",
  ]),
  example(BenchLane, "too late", { ...hereAt(600), session: read }, ["Too late to read"]),
  example(BenchLane, "handed to a team", { ...hereAt(70), session: forTeams }, ["Hand the tablet to Team Otter"]),
  example(
    BenchLane,
    "nothing left for the second pair of hands",
    {
      ...hereAt(5),
      lane: 1,
      session: { ...begun(at, [""], 2), turns: begun(at).turns.filter((turn) => turn.lane === 0) },
    },
    ["Nothing more for these hands."],
  ),
  example(BenchLane, "the second pair of hands", { ...hereAt(5), lane: 1, session: begun(at, [""], 2) }, ["Hands 2"]),
];
