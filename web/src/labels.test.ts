import { describe, expect, it } from "vitest";
import { labelProblem } from "./labels";
import { t } from "./messages";

describe("a label", () => {
  it.each(["Team Newt", "Period 3", "Room 12-14", "2030-2031", "Equipo Tritón", "Team 2031-02-14", "keeper", "@home"])(
    "such as %s is fine",
    (label) => expect(labelProblem(label)).toBe(""),
  );

  it.each(["newt@example.org", "Ask newt.team@school.example", "newt＠example.org"])(
    "such as %s looks like an e-mail address",
    (label) => expect(labelProblem(label)).toBe(t.classroom.email),
  );

  it.each(["555 0100 199", "+1 (555) 010-0199", "5550100", "Team 555–010–0199"])(
    "such as %s looks like a telephone number",
    (label) => expect(labelProblem(label)).toBe(t.classroom.telephone),
  );
});
