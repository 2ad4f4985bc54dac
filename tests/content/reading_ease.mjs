// How hard a text is to read, by published formulas; both from memory. Syllables by spelling.

// English by spelling: vowel groups, a silent e at the end and silent -ed and -es apart.
export function syllablesEnglish(word) {
  let w = word.toLowerCase().replace(/’s$|’d$|[^a-z]/g, '');
  if (w.length <= 3) return 1;
  w = w.replace(/([^td])ed$/, '$1').replace(/([^aeiouscxzgh])es$/, '$1').replace(/([^aeiouyl])e$/, '$1').replace(/([aeiouy])le$/, '$1l');
  const groups = w.replace(/^y/, '').match(/[aeiouy]+/g) ?? [];
  return Math.max(1, groups.length);
}

// Spanish by rule: two strong vowels, or an accented weak one, make two syllables; h between is silent but parts them.
export function syllablesSpanish(word) {
  const w = word.toLowerCase().replace(/qu|gu(?=[eiéí])/g, 'k').replace(/y$/, 'i').replace(/[^a-záéíóúüñ]/g, '');
  let count = 0;
  for (const [group] of w.matchAll(/[aeiouáéíóúü]+/g)) {
    let inGroup = 1;
    for (let i = 1; i < group.length; ++i) {
      const pair = group.slice(i - 1, i + 1);
      if (/^[aeoáéó]{2}$/.test(pair) || /[íú]/.test(pair)) ++inGroup;
    }
    count += inGroup;
  }
  return Math.max(1, count);
}

const sentences = (text) => text.split(/[.!?…]+[”"]?(?=\s+[^a-zà-ÿ]|$)/u).filter((part) => /\p{L}/u.test(part)).length;
const wordList = (text) => text.match(/[\p{L}’]+/gu) ?? [];

function figures(text, syllables) {
  const list = wordList(text);
  return { perSentence: list.length / sentences(text), perWord: list.reduce((total, word) => total + syllables(word), 0) / list.length };
}

// Flesch-Kincaid grade: Kincaid and others, 1975.
export function gradeEnglish(text) {
  const { perSentence, perWord } = figures(text, syllablesEnglish);
  return 0.39 * perSentence + 11.8 * perWord - 15.59;
}

// Perspicuity after Szigriszt Pazos, 1993: 0 hard to 100 easy; above 80 very easy.
export function easeSpanish(text) {
  const { perSentence, perWord } = figures(text, syllablesSpanish);
  return 206.835 - 62.3 * perWord - perSentence;
}
