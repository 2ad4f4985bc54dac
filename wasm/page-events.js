// What happens to the page, told to the app: its size, its place in the history, going away and coming back.
import { onSendAsked } from './offline.js';

// The safe areas beside a notch, read from an element that has them as its padding.
function insets() {
  const style = getComputedStyle(document.getElementById('insets'));
  return ['paddingTop', 'paddingRight', 'paddingBottom', 'paddingLeft'].map((side) => parseFloat(style[side]) || 0);
}

// What a soft keyboard hides where it covers the page instead of shrinking it (iOS).
function covered() {
  const seen = visualViewport;
  return seen && seen.scale < 1.05 ? Math.max(0, Math.round(innerHeight - seen.height - seen.offsetTop)) : 0;
}

/** The page's fragment, taken out of the address: it may hold a brief with its key, which nobody should copy by
 *  accident with the address. */
export function takeFragment() {
  const { hash } = location;
  if (hash) history.replaceState(history.state, '', location.pathname + location.search);
  return hash;
}

export function listen({ call, mirror }) {
  const measure = () => {
    call('viewport', ...insets(), covered());
    mirror.remindFocus();
  };
  addEventListener('resize', measure);
  visualViewport?.addEventListener('resize', measure);
  visualViewport?.addEventListener('scroll', measure);
  measure();

  // Another density without another size (a window moved to another screen): SDL2 looks again at a resize.
  const watchDensity = () => matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => {
    dispatchEvent(new Event('resize'));
    watchDensity();
  }, { once: true });
  watchDensity();

  document.addEventListener('visibilitychange', () => call('shown', !document.hidden));
  addEventListener('pageshow', (event) => { if (event.persisted) call('shown', true); });
  addEventListener('online', () => call('online'));
  onSendAsked(() => call('online'));
  for (const query of ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)']) {
    matchMedia(query).addEventListener('change', () => call('phone_changed'));
  }
  addEventListener('languagechange', () => call('phone_changed'));

  addEventListener('popstate', () => { if (!location.hash) call('back'); });
  addEventListener('hashchange', () => {
    const fragment = takeFragment();
    if (fragment) call('open_link', fragment);
  });

  // After SDL2, which listens there as well: what was tapped is taken at once, not in the next frame.
  document.getElementById('canvas').addEventListener('touchend', () => call('released'));
  addEventListener('mouseup', () => call('released'));

  // SDL2 keeps touches from the browser, so a tap beside a field would leave it its keyboard.
  document.getElementById('canvas').addEventListener('pointerdown', () => document.activeElement?.blur());
}
