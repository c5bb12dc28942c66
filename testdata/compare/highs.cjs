// Solves an LP file by HiGHS and writes its raw solution file:
//   node highs.cjs FILE.lp SOLUTION
// It prints the seconds of processor time that reading and solving took. The package highs is
// looked for where NODE_PATH says.
const fs = require("fs");
const load = require("highs");

const [model, solution] = process.argv.slice(2);

(async () => {
  const lines = [];
  const highs = await load({ print: (line) => lines.push(line) });
  const text = fs.readFileSync(model, "utf8");
  const start = process.cpuUsage();
  highs.solve(text, {
    output_flag: false,
    mip_rel_gap: 0,
    mip_abs_gap: 1e-6,
    write_solution_to_file: true,
    solution_file: "/dev/stdout",
    write_solution_style: 0,
  });
  const { user, system } = process.cpuUsage(start);
  fs.writeFileSync(solution, lines.join("\n") + "\n");
  console.log(((user + system) / 1e6).toFixed(6));
})().catch((error) => {
  console.error(String(error));
  process.exit(1);
});
