// What the page says when the core inside it cannot answer.
export const engine = {
  unusable:
    "This browser cannot run Redd's calculations inside the page. Everything else works. A current Firefox, Chrome, Edge or Safari can; some school settings forbid it.",
  stopped: "A calculation inside the page stopped. Nothing of your season was touched. Try it once more.",
  slow: "A calculation inside the page took longer than a minute and was ended. Nothing of your season was touched. Try it once more.",
};
