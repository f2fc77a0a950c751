// Words of the note on the connection, and of what waits on this device.
const entries = (count: number) => (count === 1 ? "1 entry is" : `${count} entries are`);

export const outbox = {
  label: "Connection",
  lost: "Redd does not answer.",
  lostHow: "Go on writing things down: they are kept on this device and go out by themselves once it answers again.",
  asOf: (when: string) => `What you see was true on ${when}.`,
  waiting: (count: number) => `${entries(count)} kept on this device and not yet in the season's file.`,
  elsewhereTitle: (kind: string) => `For another season: ${kind}`,
  elsewhereHow: (season: string) =>
    `Written down for “${season}”. It is sent when that season is open at this address; if that never comes, discard it.`,
  tryNow: "Try now",
  refusedTitle: (kind: string) => `Not accepted: ${kind}`,
  refusedHow: "Nothing is lost: write it down again as it should be, then discard this one.",
  again: "Send it again",
  discard: "Discard",
  sure: "Discard this entry for good?",
  sureYes: "Yes, discard it",
  sureNo: "Keep it",
  discarded: "Discarded.",
  keptTitle: "Kept on this device.",
  keptHow:
    "Redd does not answer just now. The entry goes to the season's file by itself once it does; today's answer takes it in then.",
  arrivedTitle: "Now in the season's file.",
  arrivedHow: "The entry went out by itself and is in the season's file by now. Correct or undo it in the history.",
  takeBack: "Take it back",
  takenBack: "Taken back: it was not sent.",
};
