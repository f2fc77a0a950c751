import { access } from "../../fixtures/classroom";
import { t } from "../../messages";
import { example } from "../example";
import AccessTable from "./AccessTable.svelte";

const clock = (at: string) => at.slice(11, 16);
const does = { clock, onendcode: () => undefined, onendsession: () => undefined };
const [code, other] = access.codes;
const [session] = access.sessions;
if (!code || !other || !session) throw new Error("no invented access");

export const examples = [
  example(AccessTable, "two codes, two sessions", { access, ...does }, [
    "Team Newt",
    t.classroom.open.own,
    "192.168.20.31",
    t.classroom.open.endCode("Team Newt", "16:45"),
  ]),
  example(AccessTable, "nobody", { access: { codes: [], sessions: [] }, ...does }, [
    t.classroom.open.noCodes,
    t.classroom.open.noSessions,
  ]),
  example(AccessTable, "long names", {
    access: {
      codes: [{ ...code, label: "Team-Newt-".repeat(6) }],
      sessions: [
        {
          ...session,
          role: "bench" as const,
          label: "Team-Newt-".repeat(6),
          from: "fe80::1234:5678:9abc:def0%enp0s31f6",
          own: false,
        },
      ],
    },
    ...does,
  }),
];
