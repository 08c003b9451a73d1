/** Everything a person reads as a figure or a date passes through here; nothing else rounds. */

export { clock, date, dateTime, dayAfter, daysAgo, daysBetween, isoDay, isoMoment, weekday } from "./dates";
export {
  area,
  areaBetween,
  areaError,
  count,
  degrees,
  density,
  dial,
  grouped,
  height,
  hours,
  length,
  mass,
  money,
  nitrogen,
  percent,
  rain,
  range,
  rate,
  roundLength,
  type Shown as Said,
  type Shown,
  speed,
  temperature,
} from "./figures";
export { type NumberCode, type NumberRead, readNumber } from "./number";
export {
  amountIn,
  type Parsed,
  type Quantity,
  readBare,
  type System,
  showTyped,
  type Typed,
  type Unit,
  unit,
  unitOf,
  unitsFor,
} from "./units";
