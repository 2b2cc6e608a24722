import { render } from "preact";
import { App } from "./App.js";
import "./page.css";

render(<App />, document.body);
