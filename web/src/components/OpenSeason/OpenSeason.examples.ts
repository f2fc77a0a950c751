import { t } from "../../messages";
import { example } from "../example";
import OpenSeason from "./OpenSeason.svelte";

const onopen = async () => ({ added: 0 });
const another = 'The file holds another season ("Heron Lane 2032"); here is "Willow Creek 2031". Nothing was changed.';
export const examples = [
  example(OpenSeason, "ready", { onopen, strong: true }, [t.copies.open, t.copies.openHelp]),
  example(
    OpenSeason,
    "another season",
    { onopen, problems: [{ code: "another_season", field: "", sentence: another }] },
    [another],
  ),
];
