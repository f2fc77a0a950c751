// The season as tables, for programs other than Redd.
export const tables = {
  title: "For spreadsheets and agencies",
  how: "For looking at the numbers in other programs. The file above stays your copy.",
  zip: "Whole season as CSV tables (.zip)",
  zipHelp:
    "One table for each kind of entry, and datapackage.json, which says what every column means and its unit. The command line also takes the tables back in.",
  wqx: "Water tests as one long table (.csv)",
  wqxHelp:
    "With the column names of the public WQX conventions, in English. A colour step stands with the range it means. The columns for an agency's own identifiers are empty: fill them in before you send it.",
};
