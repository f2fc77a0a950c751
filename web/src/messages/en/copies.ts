// What the page says about keeping the season: the file to save, the browser's own storage, other computers.
const entries = (count: number) => (count === 1 ? "1 entry" : `${count} entries`);

export const copies = {
  title: "The season as a file",
  intro:
    "One file holds the whole season, corrections included. Any Redd opens it: this page, the edition in one file, or the program on a school computer. Nothing gets lost on the way there or back.",
  footer: "The season as a file",
  saveTitle: "Save it",
  save: "Save the season as a file",
  saveShort: "Save",
  handed: (name: string) =>
    `“${name}” was handed to your browser. Look for it where downloads go, and keep it somewhere that is backed up.`,
  guessesHelp:
    "Nothing is left out, guesses that are still hidden from the class included: do not hand the file around while a question is open.",
  saveHelp: "Once a week, after the weekly test, is a good habit. Keep the newest two or three.",
  lastSaved: (day: string, name: string) => `Last saved on ${day} as “${name}”.`,
  neverSaved: "Not saved as a file yet.",
  openTitle: "Open a saved season",
  open: "Choose a saved season",
  openHelp:
    "A file that Redd saved; its name ends in .json. If this season went on elsewhere, only what is new is added. A different season is refused: nothing is ever mixed.",
  added: (count: number) =>
    count === 0 ? "All of it was here already: nothing was added." : `${entries(count)} taken in.`,
  tooLarge: "This file is too large to be a saved season.",
  /** The line under the head of the edition in one file. */
  line: {
    label: "What is saved",
    none: "No entries yet.",
    allSaved: (name: string) => `Every entry is in “${name}”.`,
    unsaved: (count: number) => `${entries(count)} not yet in a file.`,
    nagCount: "Save now: a file is the only copy that outlives this browser.",
    nagDays: (days: number) => `The last file is ${days} days old. Save a new one.`,
    demo: "Invented season: nothing of it is kept when you close the page.",
    memory: "This browser keeps nothing: entries are gone when you close the page. Save them as a file.",
    more: "How entries are kept",
  },
  storage: {
    title: "What this browser keeps",
    plain:
      "Entries are kept in this browser on this computer, and nowhere else. The browser may clear them: when you or the school clear its data, at the end of a private window or a guest session, when the disk gets full, in some browsers after a week without a visit, and in some when this file is moved or renamed. The saved file is your copy.",
    promised: "This browser has promised not to clear them by itself. Clearing its data by hand still does.",
    notPromised: "This browser has not promised to keep them. Rely on the saved file.",
    unasked: "You can ask this browser to promise not to clear them by itself.",
    ask: "Ask for that promise",
    none: "This browser forbids storage: entries live only until you close the page.",
    shared:
      "Whoever uses this browser under the same login can see and change the season. Other pages opened from the disk may be able to read it too.",
  },
  /** The copies that the program makes by itself, on its own machine. */
  made: {
    title: "Copies made by themselves",
    how: "The first entry of each day makes a copy on this machine, beside the season. Each is read through just now to see whether it is whole.",
    newest: (when: string) => `The newest whole copy is of ${when}.`,
    none: "There is no copy that can be relied on yet. The first entry of each day makes one.",
    bad: (count: number, numbers: string) =>
      count === 1
        ? `Copy ${numbers} is not whole or can’t be read: rely on another, and have the disk looked at.`
        : `Copies ${numbers} are not whole or can’t be read: rely on others, and have the disk looked at.`,
    all: (count: number) => (count === 1 ? "The one copy" : `All ${count} copies`),
    fewer: "Hide the list",
    table: "List of copies",
    number: "Copy",
    when: "Made",
    why: "Why",
    records: "Records",
    state: "Read just now",
    make: "Make a copy now",
    working: "Reading the copies…",
    done: "One more copy is made, read back and whole.",
    elsewhere:
      "They lie on the same disk as the season. Save the season as a file too, onto another one. To put a copy back, see the guide: “redd restore”.",
  },
  anew: {
    title: "Begin another season here",
    how: "This browser holds one season at a time. Save this one as a file first; then it can be put aside and another begun or opened.",
    button: "Remove this season from the browser",
    sure: (count: number) =>
      count === 0
        ? "The file you saved keeps it. Remove it from this browser?"
        : `${entries(count)} are in no file yet and would be lost. Remove the season all the same?`,
    yes: "Remove it",
    no: "Keep it",
  },
  noCalendar:
    "A calendar file can't be read in this edition. Log each closure once, with its first and last day; the plan keeps clear of them all the same.",
  leaveDemo: "Leave the invented season",
  notKept:
    "This entry could not be kept: the browser's storage is full or was closed. It is still in the form. Save the season as a file, make room, and try again.",
  edition: {
    title: "Redd in one file",
    how: "For a laptop on which nothing can be installed: one file that opens in a browser, from the disk or any web space, without a server. It carries the whole page and its calculations. Open your saved season in it, and bring the file back here later.",
    get: "Download redd.html",
  },
  start: {
    title: "Redd, without installing anything",
    intro:
      "This file is the whole program. It sends nothing anywhere and needs no network. What you log stays in this browser and in the file you save.",
    open: "Open a saved season",
    openHow: "You have a file from this page or from Redd's program.",
    fresh: "Begin a new season",
    freshHow: "A few questions, about five minutes. “Not sure” is an answer.",
    demo: "Look around in an invented season",
    demoHow: "Made up for trying things. Nothing of it is kept.",
    look: "Look around",
    lost: "Had a season here and it is gone? The browser has cleared its storage. Open the file you saved last; what was logged since then must be logged again.",
  },
};
