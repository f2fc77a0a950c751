import { t } from "../../messages";
import { example } from "../example";
import SignIn from "./SignIn.svelte";

const onenter = () => Promise.resolve([]);

export const examples = [
  example(SignIn, "a device nobody is signed in on", { onenter }, [
    t.classroom.signIn.teamMay,
    t.classroom.signIn.keeperMay,
    t.classroom.signIn.labelHelp,
  ]),
  example(SignIn, "a team whose code has ended", { onenter, teamOnly: true }, [t.classroom.signIn.code]),
];
