// Puts the page on the screen. Start at App.svelte; what the page knows is in state/app.svelte.ts.
import { mount } from "svelte";
import App from "./App.svelte";
import { embedded } from "./local/embedded";
import { startLocal } from "./state/copies.svelte";
import { start } from "./state/app.svelte";
import { reader } from "./state/reader.svelte";
import "./styles/settings.css";
import "./styles/base.css";
import "./styles/print.css";

document.documentElement.lang = reader.language;
const place = document.getElementById("page");
const parts = await embedded();
if (parts) await startLocal(parts);
if (place) {
  // The first answers are on their way already (public/early.js): where they are nearly here, the first paint is the day itself.
  const nearly_ms = 150;
  const begun = start();
  await Promise.race([begun, new Promise((resolve) => setTimeout(resolve, nearly_ms))]);
  mount(App, { target: place, props: { begun } });
}

// A reload without the server then still finds the page, which says that it is not connected. Browsers allow it on this
// machine and over https only. The edition in one file has no server of its own.
if (!parts && "serviceWorker" in navigator && import.meta.env.PROD)
  void navigator.serviceWorker.register("./sw.js").catch(() => undefined);
