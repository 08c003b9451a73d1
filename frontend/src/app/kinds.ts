/** The kinds of log entry of all features: collected here, read from `records/log/registry`. */
import { KINDS as LOG } from "../features/log/kinds";
import { KINDS as MOWING } from "../features/mowing/kinds";
import { KINDS as SEASON } from "../features/season/kinds";
import { KINDS as SHED } from "../features/shed/kinds";
import { KINDS as SPREADING } from "../features/spreading/kinds";
import { KINDS as WEATHER } from "../features/weather/kinds";
import { registerKinds } from "../records/log/registry";

registerKinds([...LOG, ...MOWING, ...SPREADING, ...SHED, ...WEATHER, ...SEASON]);
