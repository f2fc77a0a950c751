// Questions of an agency that the season report does not answer by itself.
export const ownQuestions = {
  title: "Further questions",
  how: "What your agency or hatchery asks beyond this report. Questions and answers stay in this browser and are printed with the report. No names of children.",
  add: "Add a question",
  question: (place: number) => `Question ${place}`,
  answer: (place: number) => `Answer ${place}`,
  remove: (place: number) => `Remove question ${place}`,
};
