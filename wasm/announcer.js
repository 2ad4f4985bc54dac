// Two regions that screen readers watch: what is put into them is spoken.
export class Announcer {
  constructor(polite, assertive) {
    this.polite = polite;
    this.assertive = assertive;
  }

  say(text, urgent) {
    const region = urgent ? this.assertive : this.polite;
    // The same words again would be no change, and so would not be heard.
    region.textContent = region.textContent === text ? `${text}\u00A0` : text;
  }
}
