/** The floors of the house, lowest first: a folder imports only from its own floor where named, or from below. */
const floors = [
  ["numerics", "units"],
  ["physics"],
  ["readings", "standards"],
  ["set"],
  ["ask", "infer", "invented"],
  ["sheets"],
  ["job"],
  ["store", "instruments"],
  ["desk"],
  ["faces"],
];
/** Tests may look up at the floors that use what they test, and may read files. */
const tests = "\\.(test|testdata|testscript)\\.ts$";
const under = (names) => `^src/(${names.join("|")})/`;
const upward = floors.slice(0, -1).map((floor, i) => ({
  name: `floor-${floor.join("-")}-imports-down-only`,
  severity: "error",
  from: { path: under(floor), pathNot: tests },
  to: { path: under(floors.slice(i + 1).flat()) },
}));
const core = floors.slice(0, 7).flat();
module.exports = {
  forbidden: [
    ...upward,
    { name: "numerics-do-not-know-units", severity: "error", from: { path: "^src/numerics/" }, to: { path: "^src/units/" } },
    { name: "standards-do-not-know-readings", severity: "error", from: { path: "^src/standards/" }, to: { path: "^src/readings/" } },
    {
      name: "faces-do-not-compute",
      severity: "error",
      from: { path: "^src/(desk|faces)/", pathNot: tests },
      to: { path: "^src/(physics|numerics)/" },
    },
    {
      name: "sheets-do-not-know-each-other",
      severity: "error",
      from: { path: "^src/sheets/([^/]+)/", pathNot: tests },
      to: { path: "^src/sheets/([^/]+)/", pathNot: "^src/sheets/($1|inputs)/" },
    },
    { name: "core-has-no-io", severity: "error", from: { path: under(core), pathNot: tests }, to: { dependencyTypes: ["core"] } },
    { name: "no-circles", severity: "error", from: {}, to: { circular: true } },
  ],
  options: {
    tsPreCompilationDeps: true,
    tsConfig: { fileName: "tsconfig.json" },
    doNotFollow: { path: "node_modules" },
    enhancedResolveOptions: { exportsFields: ["exports"], conditionNames: ["import", "require", "node", "default", "types"] },
  },
};
