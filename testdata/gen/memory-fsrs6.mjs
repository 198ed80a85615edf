// Writes memory-fsrs6.tsv: random histories of answers and what npm ts-fsrs 5.4.2 (MIT) says is
// remembered after them.
//
//   npm install ts-fsrs@5.4.2 && node memory-fsrs6.mjs | gzip -9n > ../memory-fsrs6.tsv.gz
//
// Lines: "w" and 21 weights, numbered from 0 as they come (the first are the defaults); then "h", the
// number of its weights, the answers as grade@days-since-the-one-before, and after the last of them
// stability, difficulty, the chance of being right as many days later as the history has answers, and
// the whole days until that chance is 85 %.
import { FSRSAlgorithm, CLAMP_PARAMETERS, default_w, generatorParameters } from "ts-fsrs";

// mulberry32: the same histories every time.
let seed = 20260101;
function random() {
  seed = (seed + 0x6d2b79f5) | 0;
  let t = Math.imul(seed ^ (seed >>> 15), 1 | seed);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
}
const pick = (list) => list[Math.floor(random() * list.length)];

const students = [];
for (let i = 0; i < 20; i++) {
  const bounds = CLAMP_PARAMETERS(2);
  const w = [...default_w].map((x, j) =>
    i === 0 ? x : Number(Math.min(Math.max(x * (0.6 + 0.8 * random()), bounds[j][0]), bounds[j][1]).toFixed(4)));
  console.log(["w", ...w].join("\t"));
  students.push(new FSRSAlgorithm(generatorParameters({ w, request_retention: 0.85, enable_fuzz: false })));
}
for (let n = 0; n < 10000; n++) {
  const who = n % 2 ? Math.floor(random() * students.length) : 0;
  const model = students[who];
  const answers = 1 + Math.floor(random() * 12);
  let state = null;
  const history = [];
  for (let i = 0; i < answers; i++) {
    const grade = pick([1, 1, 2, 3, 3, 3, 4]);
    const days = i === 0 ? 0 : pick([0, 0, 1, 1, 2, 3, Math.floor(random() * 30), Math.floor(random() * 400)]);
    state = model.next_state(state, days, grade);
    history.push(`${grade}@${days}`);
  }
  console.log(["h", who, history.join(","), state.stability, state.difficulty,
    model.forgetting_curve(answers, state.stability), model.next_interval(state.stability, 0)].join("\t"));
}
