// Writes memory-bounds.tsv: the bounds that npm ts-fsrs 5.4.2 (MIT) keeps the 21 weights of FSRS-6 within, the least and
// the most, a line for each.
//
//   npm install ts-fsrs@5.4.2 && node memory-bounds.mjs > ../memory-bounds.tsv
import { CLAMP_PARAMETERS } from "ts-fsrs";

for (const [least, most] of CLAMP_PARAMETERS(2)) console.log(`${least}\t${most}`);
