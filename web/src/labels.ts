// What a label looks like that the server would not keep, said beside the field before anything is sent. The server
// looks more closely (src/records/labels.h) and has the last word.
import { t } from "./messages";

const email = /[\p{L}\p{N}._+-]@[\p{L}\p{N}._-]+\.\p{L}{2,}/u;
/** Days, school years and times are no telephone numbers. */
const calendar =
  /\b(?:\d{4}[-/. ]\d{1,2}[-/. ]\d{1,2}|\d{1,2}[-/. ]\d{1,2}[-/. ]\d{4}|\d{4}[-/. ]\d{4}|\d{1,2}:\d{2})\b/g;
const telephone = /\d(?:[ \-./()]{0,2}\d){6}/;

/** Why this label is not kept; "" where nothing speaks against it. */
export function labelProblem(label: string): string {
  const plain = label.normalize("NFKC").replace(/[‐‑‒–—−]/g, "-");
  if (email.test(plain)) return t.classroom.email;
  return telephone.test(plain.replace(calendar, "x")) ? t.classroom.telephone : "";
}
