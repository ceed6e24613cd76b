export { Board } from "./board.js";
