import "./drawing.css";

export { CurveDrawing, MarkSwatch, type PassMark } from "../charts/curve-drawing";
export { TrayOverlap, TrayPass, UnevennessChart } from "../charts/tray-drawing";
export { BagLabel, type BagPlace } from "./bag-label";
export { DialDrawing } from "./dial-drawing";
export { clicked, clicks, type DialScale, drawable } from "./dial-shape";
export { HopperDrawing, type HopperShape } from "./hopper-drawing";
export { type HopperMeasure, HopperMeasures } from "./hopper-measures";
export { PassSwatch } from "./pass-swatch";
export { GranuleFill, hatchOfPass, StripHatch } from "./strip-hatch";
export { ZoneDrawing } from "./zone-drawing";
export type { Point, ShapePart } from "./zone-shape";
