import { audit } from "../../fixtures/classroom";
import { t } from "../../messages";
import { example } from "../example";
import AuditRows from "./AuditRows.svelte";

const clock = (at: string) => at.slice(11, 16);

export const examples = [
  example(AuditRows, "three rows, one gap", { rows: audit.rows, gaps: audit.gaps, clock }, [
    "Logged a reading.",
    t.classroom.audit.entry(118),
    t.classroom.audit.here,
    audit.gaps[0] ?? "",
  ]),
  example(AuditRows, "nothing yet", { rows: [], gaps: [], clock }, [t.classroom.audit.none]),
  example(AuditRows, "long words", {
    rows: audit.rows.map((row) => ({ ...row, label: "Team-Newt-".repeat(6), sentence: "Logged-a-reading-".repeat(8) })),
    gaps: [],
    clock,
  }),
];
