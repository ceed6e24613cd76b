export { Film } from "./film.js";
export { Meadow } from "./scene.js";
export { Sticks } from "./sticks.js";
