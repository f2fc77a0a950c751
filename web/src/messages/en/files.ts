// Sheets and charts as files, from the server.
export const files = {
  save: "Save as a file",
  pdf: "PDF",
  classPdf: "PDF for the class",
  html: "HTML",
  how: "PDF for paper and mail; HTML in one file for screen readers. For the class: the animals, the dates and the charts.",
  saving: "Drawing the sheet …",
  saved: (name: string) => `Saved: ${name}`,
  chart: "The season’s chart as a file:",
  chartAs: (chart: string, kind: string) => `${chart}, as ${kind}`,
};
