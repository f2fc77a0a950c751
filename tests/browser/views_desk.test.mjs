// Every screen at a desk, and on the projector.
import { after, before } from "node:test";
import { startBrowser, startRedd } from "./support/redd.mjs";
import { everyScreen } from "./support/screens.mjs";

let redd;
let browser;

before(async () => {
  redd = await startRedd("demo");
  browser = await startBrowser();
});

after(async () => {
  await browser?.close();
  await redd?.stop();
});

everyScreen(["desktop"], ["light", "dark"], () => ({ browser, redd }));
everyScreen(["projector"], ["dark"], () => ({ browser, redd }));
