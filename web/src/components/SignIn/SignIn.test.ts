import { cleanup, fireEvent, render, screen } from "@testing-library/svelte";
import { afterEach, describe, expect, it, vi } from "vitest";
import type { Problem } from "../../contract";
import { kept } from "../../keep";
import { t } from "../../messages";
import SignIn from "./SignIn.svelte";

const words = t.classroom.signIn;
const refused: Problem = { code: "unknown_code", field: "code", sentence: "There is no such code, or it has ended." };

afterEach(() => {
  cleanup();
  localStorage.clear();
});

function shown(problems: Problem[] = []) {
  const onenter = vi.fn(() => Promise.resolve(problems));
  render(SignIn, { props: { onenter } });
  return onenter;
}
const type = (label: RegExp | string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

describe("signing in", () => {
  it("sends a team's code and keeps its label, but never the code", async () => {
    const onenter = shown();
    await type(words.code, " cdfg-hjkm ");
    await type(new RegExp(words.label), "Team Newt");
    await fireEvent.click(screen.getByRole("button", { name: words.begin }));
    expect(onenter).toHaveBeenCalledWith({ code: "cdfg-hjkm" });
    expect(kept("team")).toBe("Team Newt");
    expect(JSON.stringify({ ...localStorage })).not.toContain("cdfg");
  });

  it("sends the keeper's passphrase, keeps it nowhere and empties the field", async () => {
    const onenter = shown([{ code: "wrong_passphrase", field: "passphrase", sentence: "That is not the passphrase." }]);
    await type(words.passphrase, "four words that rest");
    await fireEvent.click(screen.getByRole("button", { name: words.enter }));
    expect(onenter).toHaveBeenCalledWith({ passphrase: "four words that rest" });
    expect(JSON.stringify({ ...localStorage })).not.toContain("four words");
    expect((await screen.findByRole("alert")).textContent).toContain("That is not the passphrase.");
    expect(screen.getByLabelText<HTMLInputElement>(words.passphrase).value).toBe("");
    expect(screen.getByLabelText(words.passphrase).getAttribute("aria-invalid")).toBe("true");
  });

  it("says at the field that a label looks like an address or a number, before anything is sent", async () => {
    const onenter = shown();
    await type(words.code, "CDFG-HJKM");
    await type(new RegExp(words.label), "newt@example.org");
    await fireEvent.click(screen.getByRole("button", { name: words.begin }));
    expect(onenter).not.toHaveBeenCalled();
    const field = screen.getByLabelText(new RegExp(words.label));
    const problem = field.getAttribute("aria-describedby")?.split(" ").at(-1) ?? "";
    expect(document.getElementById(problem)?.textContent).toBe(t.classroom.email);
    expect(kept("team")).toBeNull();
  });

  it("asks for what is missing, and shows why the server refuses", async () => {
    const onenter = shown([refused]);
    await fireEvent.click(screen.getByRole("button", { name: words.begin }));
    expect(screen.getByRole("alert").textContent).toContain(words.noCode);
    expect(onenter).not.toHaveBeenCalled();
    await type(words.code, "CDFG-HJKM");
    await fireEvent.click(screen.getByRole("button", { name: words.begin }));
    expect((await screen.findByRole("alert")).textContent).toContain(refused.sentence);
  });
});
