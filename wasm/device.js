// What the page asks of the device: files in and out, paper, a screen that stays on, vibration and a chime.

const LONGEST_FILE = 16 * 1024 * 1024 + 1;  // a journal; the app itself says that a file is too long

function download(file) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 60000);
}

/** Hands a file over: to the phone's share sheet where files can be shared by touch, as a download elsewhere. */
export async function saveFile(name, type, text) {
  const file = new File([text], name, { type });
  if (matchMedia('(pointer: coarse)').matches && navigator.canShare?.({ files: [file] })) {
    try {
      return await navigator.share({ files: [file], title: name });
    } catch (error) {
      if (error.name === 'AbortError') return;  // the person closed the share sheet
    }
  }
  download(file);
}

/** Lets the person pick a file; `opened` gets its text. */
export function pickFile(opened) {
  const input = document.createElement('input');
  input.type = 'file';
  input.accept = '.json,application/json,text/plain';
  input.hidden = true;
  input.onchange = async () => {
    if (input.files[0]) opened(await input.files[0].slice(0, LONGEST_FILE).text());
    input.remove();
  };
  input.oncancel = () => input.remove();
  document.body.append(input);
  input.click();
}

/** A file dropped on the page is opened as a picked one is. */
export function acceptDrops(opened) {
  addEventListener('dragover', (event) => event.preventDefault());
  addEventListener('drop', async (event) => {
    event.preventDefault();
    const [file] = event.dataTransfer.files;
    if (file) opened(await file.slice(0, LONGEST_FILE).text());
  });
}

/** Prints `text` under `title`, in place of the page. */
export function printText(title, text) {
  const sheet = document.createElement('section');
  sheet.id = 'print';
  const heading = document.createElement('h1');
  heading.textContent = title;
  const body = document.createElement('p');
  body.textContent = text;
  sheet.append(heading, body);
  document.body.append(sheet);
  addEventListener('afterprint', () => sheet.remove(), { once: true });
  print();
}

let awake = false;
let lock = null;

async function holdScreen() {
  if (!awake || lock || document.hidden) return;
  try {
    lock = await navigator.wakeLock.request('screen');
    lock.onrelease = () => { lock = null; };
    if (!awake) lock.release();
  } catch { /* no such lock, or the battery is low: the phone's own setting holds */ }
}
document.addEventListener('visibilitychange', holdScreen);  // a hidden page loses it

export function keepAwake(on) {
  awake = on;
  if (on) holdScreen();
  else lock?.release();
}

// By kind: the end of a step, five minutes left, two minutes left.
const BUZZES = [
  { vibration: [120], tones: [660] },
  { vibration: [200, 120, 200], tones: [660, 880] },
  { vibration: [300, 120, 300, 120, 300], tones: [880, 660, 880] },
];
let audio = null;
let allowed = false;  // to make sound
let silentAt = 0;     // by the clock of `audio`

// Browsers let a page make sound only once it has been touched, and a phone call takes that away again. Between chimes sound
// is off altogether: a phone would go on mixing silence, and never sleep.
async function allowAudio() {
  if (allowed && audio.state !== 'interrupted') return;
  try {
    audio ??= new AudioContext();
    await audio.resume();
    allowed = true;
    await audio.suspend();
  } catch { /* a phone without sound still vibrates */ }
}
addEventListener('pointerup', allowAudio, { capture: true });
addEventListener('keydown', allowAudio, { capture: true });

function play(frequency, start) {
  const tone = new OscillatorNode(audio, { frequency });
  const volume = new GainNode(audio, { gain: 0 });
  volume.gain.setTargetAtTime(0.15, start, 0.01);
  volume.gain.setTargetAtTime(0, start + 0.06, 0.08);
  tone.connect(volume).connect(audio.destination);
  tone.start(start);
  tone.stop(start + 0.6);
  silentAt = start + 0.6;
  tone.onended = () => { if (audio.currentTime >= silentAt) audio.suspend(); };
}

async function chime(tones) {
  if (!allowed) return;
  try {
    await audio.resume();
  } catch {
    return;
  }
  tones.forEach((frequency, i) => play(frequency, audio.currentTime + i * 0.25));
}

/** Soon, not at once: it would hold up the frame that shows what it is for. */
export function buzz(kind) {
  setTimeout(() => {
    navigator.vibrate?.(BUZZES[kind].vibration);
    chime(BUZZES[kind].tones);
  });
}
