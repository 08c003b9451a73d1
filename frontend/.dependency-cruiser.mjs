/**
 * Who may import whom on the phone: features → forms, records → platform → format; ui knows no feature; a feature is
 * known to others by its index.ts only; app knows all. What is fetched later (`import(…)`) makes no circle.
 */
const TESTS = "\\.test\\.tsx?$|/(fake-[^/]*|real-engine)\\.ts$";
const from = (room) => ({ path: `^src/${room}/`, pathNot: TESTS });

export default {
  forbidden: [
    {
      name: "no-circle-of-files",
      severity: "error",
      from: {},
      to: { circular: true, viaOnly: { dependencyTypesNot: ["dynamic-import", "type-only"] } },
    },
    {
      name: "a-feature-is-known-by-its-index",
      severity: "error",
      from: { path: "^src/features/([^/]+)/", pathNot: TESTS },
      to: { path: "^src/features/[^/]+/", pathNot: "^src/features/($1/|[^/]+/index\\.ts$)" },
    },
    {
      name: "app-knows-what-features-show",
      severity: "error",
      from: from("app"),
      to: { path: "^src/features/[^/]+/", pathNot: "^src/features/[^/]+/(index|kinds)\\.ts$" },
    },
    {
      name: "only-the-app-knows-features",
      severity: "error",
      from: { path: "^src/(forms|records|ui|platform|format)/", pathNot: TESTS },
      to: { path: "^src/(features|app)/" },
    },
    {
      name: "features-do-not-know-the-app",
      severity: "error",
      from: from("features"),
      to: { path: "^src/app/" },
    },
    {
      name: "records-and-forms-stand-on-platform-and-format",
      severity: "error",
      from: from("(records|forms)"),
      to: { path: "^src/", pathNot: "^src/(records|forms|platform|format)/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "platform-stands-on-format",
      severity: "error",
      from: from("platform"),
      to: { path: "^src/", pathNot: "^src/(platform|format)/", dependencyTypesNot: ["type-only"] },
    },
    {
      name: "format-stands-alone",
      severity: "error",
      from: from("format"),
      to: { path: "^src/", pathNot: "^src/format/", dependencyTypesNot: ["type-only"] },
    },
  ],
  options: {
    doNotFollow: { path: "node_modules" },
    exclude: { path: "node_modules|^\\.\\./" },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
  },
};
