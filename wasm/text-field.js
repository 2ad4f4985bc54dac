// A text field of the mirror: a real one, lying over the frame that the canvas draws, so that a tap on it brings up the
// phone's own keyboard, with paste, spelling and composition. C++ owns the text; what is typed goes there at once.

const PADDING = 12;          // of the frame, above and below its lines (src/host/node.h)
const LINE_HEIGHT = 1.32;    // in parts of the font size, as the app sets its text
const LEAST_FONT_SIZE = 16;  // below this, iOS zooms into the page

// The beginning of `text` that fits into `most` bytes of UTF-8, not cutting a character.
function fitting(text, most) {
  const bytes = new TextEncoder().encode(text);
  if (!most || bytes.length <= most) return text;
  let end = most;
  while (end > 0 && (bytes[end] & 0xC0) === 0x80) --end;
  return new TextDecoder().decode(bytes.subarray(0, end));
}

export class TextField {
  constructor(node, type) {
    this.element = document.createElement(node.lines > 1 ? 'textarea' : 'input');
    this.element.autocomplete = 'off';
    // Short fields take first names: some browsers send what they check elsewhere.
    this.element.spellcheck = node.lines > 1;
    this.element.enterKeyHint = node.lines > 1 ? 'enter' : 'done';
    this.composing = false;
    this.element.addEventListener('compositionstart', () => { this.composing = true; });
    this.element.addEventListener('compositionend', () => {
      this.composing = false;
      this.typed(type);
    });
    this.element.addEventListener('input', () => this.typed(type));
    this.element.addEventListener('keydown', (event) => {
      if (event.key === 'Enter' && node.lines <= 1 && !event.isComposing) this.element.blur();
    });
  }

  // While a composition is under way, C++ hears of it but the field is left alone.
  typed(type) {
    const text = fitting(this.element.value, this.most);
    if (text !== this.element.value && !this.composing) this.element.value = text;
    if (text === this.text) return;
    this.text = text;
    type(text);
  }

  update(node) {
    const { element } = this;
    this.most = node.most;
    element.setAttribute('aria-label', node.name ?? '');
    element.placeholder = node.hint ?? '';
    element.disabled = !!node.disabled;
    this.place(node);
    const text = node.value ?? '';
    if (text === this.text || this.composing) return;
    this.text = text;
    element.value = text;
  }

  place({ rect: [, y, , height], lines = 1, clip }) {
    const line = (height - 2 * PADDING) / lines;
    const size = Math.max(LEAST_FONT_SIZE, Math.round(line / LINE_HEIGHT));
    // A field that is scrolled half out of its part of the screen must not lie over what is beside that part.
    const above = clip ? Math.max(0, clip[0] - y) : 0;
    const below = clip ? Math.max(0, y + height - clip[1]) : 0;
    const looks = `${line} ${size} ${above} ${below}`;
    if (looks === this.looks) return;
    this.looks = looks;
    Object.assign(this.element.style, {
      lineHeight: `${line}px`, fontSize: `${size}px`, padding: `${PADDING}px`,
      clipPath: above + below > 0 ? `inset(${above}px 0 ${below}px 0)` : '',
    });
  }
}
