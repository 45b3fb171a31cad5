// HiGHS on every program (*.lp) of a folder, as CSV: instance,verdict,optimum. Versions first, as comment.
//   HIGHS_FROM=FOLDER node highs.mjs DIR SECONDS      FOLDER has node_modules/highs
import { createRequire } from 'node:module';
import { readdirSync, readFileSync } from 'node:fs';

const require = createRequire(process.env.HIGHS_FROM + '/');
const load = require('highs');
const [folder, seconds] = process.argv.slice(2);
const words = { Optimal: 'optimal', Infeasible: 'infeasible' };

console.log(`# HiGHS as npm highs ${JSON.parse(readFileSync(process.env.HIGHS_FROM + '/node_modules/highs/package.json')).version}`);
console.log('instance,verdict,optimum');
for (const file of readdirSync(folder).filter((name) => name.endsWith('.lp')).sort()) {
  const highs = await load();
  const options = { time_limit: Number(seconds), mip_rel_gap: 0, mip_abs_gap: 0.5 };
  const solution = highs.solve(readFileSync(`${folder}/${file}`, 'utf8'), options);
  const verdict = words[solution.Status] ?? 'unproven';
  console.log(`${file.slice(0, -3)},${verdict},${verdict === 'optimal' ? Math.round(solution.ObjectiveValue) : ''}`);
}
