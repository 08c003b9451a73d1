import { useCallback } from "preact/hooks";
import { type System, unitOf } from "../../../format";
import { type Ink, Plot } from "../../../ui/charts/plot";
import { type SoilDrawn, soilPlot } from "./soil-plot";

interface SoilChartProps {
  drawn: SoilDrawn;
  system: System;
  /** What is seen; a table below says the same in figures. */
  label: string;
}

/** The chart of soil warmth; what its marks mean stands beneath it (soil-legend.tsx). */
export function SoilChart({ drawn, system, label }: SoilChartProps) {
  const unit = unitOf("temperature", system).label;
  const make = useCallback((ink: Ink) => soilPlot(drawn, system, unit, ink), [drawn, system, unit]);
  return <Plot label={label} make={make} />;
}
