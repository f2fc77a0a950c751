// Every request and answer of the JSON interface against its schema in docs/openapi.json (JSON Schema 2020-12), by ajv. The program serves the invented
// season; the list below must hold each operation of the description, so that a new one can't be left out.
// Run with: REDD_PROGRAM=… node --test tests/interchange
import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { after, before, test } from "node:test";
import { startRedd } from "../browser/support/redd.mjs";

const fromPage = createRequire(new URL("../../web/package.json", import.meta.url));
const Ajv = fromPage("ajv/dist/2020").default;
const addFormats = fromPage("ajv-formats").default;
const description = JSON.parse(readFileSync(new URL("../../docs/openapi.json", import.meta.url), "utf8"));

const ajv = new Ajv({ strict: false, formats: { binary: true } });
addFormats(ajv);
ajv.addSchema(description, "openapi");
const pointer = (text) => text.replaceAll("~", "~0").replaceAll("/", "~1");
/** The schema at these keys of the description, compiled; its references lead into the description. */
const schemaAt = (...keys) => ajv.compile({ $ref: `openapi#/${keys.map((key) => encodeURIComponent(pointer(key))).join("/")}` });

const temperature = { kind: "temperature", author: "Team Otter", body: { temperature_c: 8, place: "tank" } };
const kit = { key: "k", name: "Own card", tests: [{ key: "kh", quantity: "alkalinity", method: "drop_count", unit: "german_degrees", per_drop: 1 }] };
/** Each operation, with bodies that are answered, and what is put in place of {…}. */
const asked = {
  "GET /api/season": [{}],
  "GET /api/day": [{}, { query: "as_of=2031-01-15" }, { query: "as_of=2030-10-01&language=es&units=us" }],
  "GET /api/filter": [{}],
  "POST /api/filter/cancel": [{ body: {} }],
  "POST /api/filter/start": [{ body: {} }],
  "GET /api/plan": [{ query: "as_of=2031-01-15" }],
  "GET /api/plan.ics": [{ query: "as_of=2031-01-15" }],
  "GET /api/wall": [{ query: "as_of=2031-01-15" }],
  "GET /api/heat": [{}],
  "GET /api/water-plan": [{ query: "as_of=2031-02-14" }],
  "POST /api/water/try": [{ body: { fraction: 0.2 } }],
  "GET /api/what-if": [{}],
  "POST /api/what-if": [{ body: { sliders: {} } }],
  "GET /api/loading": [{}],
  "GET /api/feed": [{}],
  "GET /api/counts": [{}, { query: "as_of=2030-10-01" }],
  "GET /api/lessons": [{}],
  "GET /api/report": [{}],
  "GET /api/report.pdf": [{}, { query: "for=class&paper=letter&language=es" }],
  "POST /api/report.pdf": [{ body: { questions: [{ question: "Stocking permit?", answer: "Invented 7" }] } }],
  "GET /api/report.html": [{}],
  "POST /api/report.html": [{ body: { questions: [] } }],
  "GET /api/charts/{file}": [{ part: "nitrite.svg" }, { part: "temperature.png", query: "units=us" }],
  "GET /api/next-year": [{}, { query: "as_of=2030-10-01" }],
  "GET /api/emergency": [{}],
  "GET /api/emergency/card": [{}],
  "GET /api/emergency/{key}": [{ part: "chiller-failed" }],
  "GET /api/history": [{ query: "limit=50" }],
  "GET /api/kits": [{}],
  "POST /api/records": [{ body: temperature }],
  "POST /api/records/{id}/undo": [{ part: "newest", body: { author: "Team Otter" } }],
  "POST /api/calendar/preview": [{ body: { text: "2031-03-24 to 2031-03-28, Spring break" } }],
  "POST /api/calendar": [{ body: { text: "2031-03-24 to 2031-03-28, Spring break", author: "Team Otter", confirmed: true } }],
  "GET /api/export.zip": [{}],
  "GET /api/kinds": [{}],
  "GET /api/species": [{}],
  "GET /api/calc": [{}],
  "GET /api/calc/{name}": [{ part: "oxygen_saturation", query: "temperature_c=8" }],
  "POST /api/bench": [{ body: { bench_schedule: { kit } } }],
  "GET /api/export": [{}],
  "GET /api/water-quality.csv": [{}],
  "GET /api/openapi.json": [{}],
  "GET /api/classroom": [{}],
  "POST /api/classroom/sign-out": [{ body: {} }],
  "GET /api/audit": [{}],
  "GET /api/thermometer": [{}],
};
/** Said by other tests with bodies of their own: a plan's shifts, an open question, a whole season, a table; or not there in the demo: copies, a classroom,
 * a thermometer. Here only that they are refused in shape. */
const onlyRefused = [
  "POST /api/plan/try",
  "POST /api/lessons/guess",
  "POST /api/import",
  "POST /api/table/preview",
  "POST /api/table",
  "GET /api/copies",
  "POST /api/copies",
  "POST /api/classroom/sign-in",
  "GET /api/classroom/access",
  "POST /api/classroom/codes",
  "POST /api/classroom/codes/{id}/end",
  "POST /api/classroom/sessions/{id}/end",
  "POST /api/classroom/end-all",
  "POST /api/thermometer/quiet",
  "POST /api/thermometer/try",
];

let redd;
before(async () => (redd = await startRedd("demo")));
after(() => redd?.stop());

async function ask(method, path, body) {
  const init = method === "POST" ? { method, body: JSON.stringify(body), headers: { "Content-Type": "application/json" } } : {};
  const reply = await fetch(new URL(path.slice(1), redd.address), init);
  return { status: reply.status, type: (reply.headers.get("content-type") ?? "").split(";")[0], text: await reply.text() };
}

test("every operation is asked here", () => {
  const described = Object.entries(description.paths).flatMap(([path, methods]) => Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`));
  assert.deepEqual([...Object.keys(asked), ...onlyRefused].sort(), described.sort());
});

test("every body that is sent or answered has a schema that says something", () => {
  for (const [path, methods] of Object.entries(description.paths))
    for (const [method, operation] of Object.entries(methods)) {
      if (method === "post") assert.ok(operation.requestBody?.content?.["application/json"]?.schema, `${method} ${path}`);
      for (const [status, response] of Object.entries(operation.responses))
        for (const { schema } of Object.values(response.content)) assert.ok(schema.$ref ?? schema.type, `${method} ${path} ${status}`);
    }
});

for (const [operation, questions] of Object.entries(asked))
  test(operation, async () => {
    const [method, path] = operation.split(" ");
    const described = description.paths[path][method.toLowerCase()];
    for (const { part = "", query = "", body } of questions) {
      const newest = part === "newest" ? JSON.parse((await ask("GET", "/api/history?limit=1")).text).records[0].id : part;
      const reply = await ask(method, path.replace(/\{\w+\}/, String(newest)) + (query ? `?${query}` : ""), body);
      const content = described.responses[String(reply.status)]?.content;
      assert.ok(content, `${operation} ${query}: ${reply.status} ${reply.text.slice(0, 300)}`);
      assert.ok(content[reply.type], `${operation}: ${reply.type}`);
      if (body !== undefined) {
        const fits = schemaAt("paths", path, "post", "requestBody", "content", "application/json", "schema");
        assert.ok(fits(body), `${operation} sent: ${ajv.errorsText(fits.errors)}`);
      }
      if (reply.type !== "application/json") continue;
      const fits = schemaAt("paths", path, method.toLowerCase(), "responses", String(reply.status), "content", reply.type, "schema");
      assert.ok(fits(JSON.parse(reply.text)), `${operation} ${query}: ${ajv.errorsText(fits.errors).slice(0, 600)}`);
    }
  });

test("what is wrong is refused in the shape of problems", async () => {
  const problems = schemaAt("components", "schemas", "Problems");
  const wrong = [["GET", "/api/day?as_of=soon"], ["GET", "/api/calc/perpetual_motion"], ["POST", "/api/records", { kind: "poem" }], ...onlyRefused.map((name) => [...name.replace("{id}", "1").split(" "), {}])];
  for (const [method, path, body] of wrong) {
    const reply = await ask(method, path, body);
    assert.ok(reply.status >= 400 && reply.status < 500, `${path}: ${reply.status}`);
    assert.ok(problems(JSON.parse(reply.text)), `${path}: ${ajv.errorsText(problems.errors)}`);
  }
});

test("the schemas can refuse", () => {
  const fits = schemaAt("paths", "/api/season", "get", "responses", "200", "content", "application/json", "schema");
  assert.equal(fits({}), false);
});
