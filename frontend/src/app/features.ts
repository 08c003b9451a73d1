/** Every feature, collected: what they export is read from `records/log/registry`, and nobody else knows them all. */
import "./kinds";
import { feature as clash } from "../features/clash";
import { feature as entrance } from "../features/entrance";
import { feature as ground } from "../features/ground";
import { feature as household } from "../features/household";
import { feature as log } from "../features/log";
import { feature as mowing } from "../features/mowing";
import { feature as season } from "../features/season";
import { feature as shed } from "../features/shed";
import { feature as spreading } from "../features/spreading";
import { feature as today } from "../features/today";
import { feature as weather } from "../features/weather";
import { registerFeatures } from "../records/log/registry";

const places = [today, ground, mowing, shed, season, log, household, entrance];
registerFeatures([...places, clash, spreading, weather]);
