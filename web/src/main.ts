// Puts the page on the screen. Start at App.svelte; what the page knows is in state/app.svelte.ts.
import { mount } from "svelte";
import App from "./App.svelte";
import "./styles/settings.css";
import "./styles/base.css";
import "./styles/print.css";

const place = document.getElementById("page");
if (place) mount(App, { target: place });
