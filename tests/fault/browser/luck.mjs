// The same numbers for the same seed (the generator of tests/fault/luck.h is C++'s own).

/** A function of (least, most) that gives whole numbers, each as likely as the other. */
export function luckOf(seed) {
  let state = BigInt(seed) & 0xFFFFFFFFFFFFFFFFn;
  const next = () => {  // SplitMix64
    state = (state + 0x9E3779B97F4A7C15n) & 0xFFFFFFFFFFFFFFFFn;
    let z = state;
    z = ((z ^ (z >> 30n)) * 0xBF58476D1CE4E5B9n) & 0xFFFFFFFFFFFFFFFFn;
    z = ((z ^ (z >> 27n)) * 0x94D049BB133111EBn) & 0xFFFFFFFFFFFFFFFFn;
    return z ^ (z >> 31n);
  };
  return (least, most) => least + Number(next() % BigInt(most - least + 1));
}
