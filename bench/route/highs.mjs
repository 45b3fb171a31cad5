// HiGHS on whole-number programs (*.lp): one CSV an instance, those that are there already are left alone.
//   HIGHS_FROM=FOLDER node highs.mjs SECONDS OUT FILE...      FOLDER has node_modules/highs
import { createRequire } from 'node:module';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';

const load = createRequire(process.env.HIGHS_FROM + '/')('highs');
const [seconds, out, ...files] = process.argv.slice(2);
const words = { Optimal: 'optimal', Infeasible: 'infeasible' };

for (const file of files) {
  const name = basename(file, '.lp');
  const answer = `${out}/${name}.csv`;
  if (existsSync(answer)) continue;
  const highs = await load();
  const options = { time_limit: Number(seconds), mip_rel_gap: 0, mip_abs_gap: 0.5 };
  const solution = highs.solve(readFileSync(file, 'utf8'), options);
  const verdict = words[solution.Status] ?? 'unproven';
  const optimum = verdict === 'optimal' ? Math.round(solution.ObjectiveValue) : '';
  writeFileSync(answer, `instance,verdict,optimum\n${name},${verdict},${optimum}\n`);
}
