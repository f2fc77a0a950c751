import { example } from "../example";
import { benchCode, keeperHere } from "../../fixtures/classroom";
import CodeBoard from "./CodeBoard.svelte";

const onhide = () => undefined;

export const examples = [
  example(CodeBoard, "for a team", { code: benchCode, until: "11:45", addresses: keeperHere.addresses, onhide }, [
    "CDFG-HJKM",
    "for Team Newt",
    "holds until 11:45",
    "https://school-pc.local:7443",
  ]),
  example(CodeBoard, "for any team, no address known", {
    code: { ...benchCode, label: null },
    until: "Friday 31 January 2031, 09:10",
    addresses: [],
    onhide,
  }),
  example(CodeBoard, "a long label", {
    code: { ...benchCode, label: "Team-Newt-of-the-old-mill-pond-".repeat(2) },
    until: "11:45",
    addresses: ["https://a-very-long-name-of-a-computer-in-the-science-room.school.example:7443"],
    onhide,
  }),
];
