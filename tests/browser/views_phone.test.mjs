// Every screen on a phone, and on the narrowest one.
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

everyScreen(["phone"], ["light", "dark"], () => ({ browser, redd }));
everyScreen(["small"], ["light"], () => ({ browser, redd }));
