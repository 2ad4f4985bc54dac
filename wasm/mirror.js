// The mirror: what the canvas shows, as real elements laid exactly over it, for screen readers, keyboards and soft
// keyboards. C++ sends all nodes of a frame (src/host/web/node_text.h); only what differs from the last ones is touched.
// Touches fall through to the canvas, save on text fields, which are real ones.
import { TextField } from './text-field.js';

const TAGS = {
  text: 'p', button: 'button', toggle: 'button', checkbox: 'input', tab: 'button', image: 'div', progress: 'div',
  timer: 'div', alert: 'div', status: 'div', group: 'div', tablist: 'div',
};
const ROLES = { tab: 'tab', image: 'img', progress: 'progressbar', timer: 'timer', alert: 'alert', status: 'status', group: 'group', tablist: 'tablist' };
const SIDES = ['left', 'top', 'width', 'height'];
const PRESSED = new Set(['button', 'toggle', 'checkbox', 'tab']);

const tagOf = (node) => (node.role === 'heading' ? `h${Math.min(3, Math.max(1, node.level ?? 1))}` : TAGS[node.role]);
const isField = (node) => node.role === 'textbox';
const kindOf = (node) => (isField(node) ? `textbox ${node.lines > 1}` : `${node.role} ${tagOf(node)}`);

// What an entry's element has is remembered: to ask the element costs more.
function set({ element, attributes }, name, value = '') {
  const text = String(value);
  if ((attributes[name] ?? '') === text) return;
  attributes[name] = text;
  if (text) element.setAttribute(name, text);
  else element.removeAttribute(name);
}

export class Mirror {
  /** `root`: the element that covers the canvas. `app`: {activate(id), focus(id), type(id, text), back()}. */
  constructor(root, app) {
    this.root = root;
    this.app = app;
    this.entries = new Map();  // node id -> { kind, element, attributes, words, node, field }
    root.addEventListener('click', (event) => this.onClick(event));
    root.addEventListener('keydown', (event) => this.onKey(event));
    root.addEventListener('focusin', (event) => this.tellFocus(event.target));
    root.addEventListener('focusout', (event) => { if (!root.contains(event.relatedTarget)) this.tellFocus(null); });
    // Focus on an element outside the visible part makes browsers scroll the container: the app does that.
    root.addEventListener('scroll', () => root.scrollTo(0, 0));
  }

  show(nodes, language) {
    const focused = document.activeElement;
    const hadFocus = this.root.contains(focused);
    this.quiet = true;  // focus moved by us is not news for the app
    this.root.lang = language;
    const layout = this.build(nodes);
    for (const [id, entry] of this.entries) {
      if (layout.used.has(id)) continue;
      entry.element.remove();
      this.entries.delete(id);
    }
    for (const [parent, children] of layout.children) this.arrange(parent, children);
    if (hadFocus && document.activeElement !== focused) {
      if (focused.isConnected) focused.focus({ preventScroll: true });
      else this.root.querySelector('h1, h2, h3')?.focus({ preventScroll: true });
    }
    this.quiet = false;
    if (hadFocus && !focused.isConnected) this.tellFocus(document.activeElement);
  }

  /** Tells the app again where focus is, for the room around it has changed. */
  remindFocus() {
    if (this.root.contains(document.activeElement)) this.tellFocus(document.activeElement);
  }

  // Makes or updates the elements; returns which parent holds which children, in reading order.
  build(nodes) {
    const children = new Map([[this.root, []]]);
    const used = new Set();
    const parents = [this.root];
    const add = (node) => {
      let { id } = node;
      while (used.has(id)) id += '+';
      used.add(id);
      const { element } = this.entry(id, node);
      children.get(parents.at(-1)).push(element);
      return element;
    };
    const enter = (node) => {
      const element = add(node);
      children.set(element, children.get(element) ?? []);
      parents.push(element);
    };
    let inTabs = false;
    for (const node of nodes) {
      if (inTabs !== (node.role === 'tab')) {
        inTabs = !inTabs;
        if (inTabs) enter({ id: `tabs of ${node.id}`, role: 'tablist' });
        else parents.pop();
      }
      if (node.role === 'group') enter(node);
      else if (node.role !== 'group_end') add(node);
      else if (parents.length > 1) parents.pop();
    }
    return { children, used };
  }

  arrange(parent, children) {
    let next = parent.firstChild;
    for (const element of children) {
      if (element === next) next = next.nextSibling;
      else parent.insertBefore(element, next);
    }
  }

  entry(id, node) {
    let entry = this.entries.get(id);
    if (entry?.kind !== kindOf(node)) {
      entry?.element.remove();
      entry = this.create(node);
      entry.element.dataset.node = id;
      this.entries.set(id, entry);
    }
    this.update(entry, node);
    entry.node = node;
    return entry;
  }

  create(node) {
    if (isField(node)) {
      const field = new TextField(node, (text) => this.app.type(field.element.dataset.node, text));
      return { kind: kindOf(node), element: field.element, field };
    }
    const element = document.createElement(tagOf(node));
    if (element.localName === 'button') element.type = 'button';
    if (node.role === 'checkbox') element.type = 'checkbox';
    if (node.role === 'heading') element.tabIndex = -1;
    const entry = { kind: kindOf(node), element, attributes: {} };
    if (node.role === 'timer') set(entry, 'aria-live', 'off');
    set(entry, 'role', ROLES[node.role]);
    return entry;
  }

  update(entry, node) {
    const { element, field, node: before } = entry;
    node.rect?.forEach((length, i) => {
      if (length !== before?.rect?.[i]) element.style[SIDES[i]] = `${length}px`;
    });
    if (field) return field.update(node);
    const name = node.name ?? '';
    const value = node.value ?? '';
    switch (node.role) {
      case 'group': case 'image':
        set(entry, 'aria-label', name);
        break;
      case 'checkbox':
        set(entry, 'aria-label', value ? `${name}, ${value}` : name);
        element.checked = !!node.checked;
        break;
      case 'progress':
        set(entry, 'aria-label', name);
        set(entry, 'aria-valuenow', node.percent ?? 0);
        set(entry, 'aria-valuetext', value);
        break;
      case 'tablist':
        break;
      default: {
        const words = name && value ? `${name}, ${value}` : name || value;
        // New words in the same text cost the browser less than a new text.
        if (!element.firstChild) element.append(words);
        else if (entry.words !== words) element.firstChild.data = words;
        entry.words = words;
      }
    }
    if (node.role === 'toggle') set(entry, 'aria-pressed', !!node.checked);
    if (node.role === 'tab') set(entry, 'aria-selected', !!node.selected);
    set(entry, 'aria-disabled', node.disabled ? 'true' : undefined);
    set(entry, 'aria-description', node.hint);
  }

  onClick(event) {
    const entry = this.entries.get(event.target.dataset?.node);
    if (!entry || !PRESSED.has(entry.node.role)) return;
    if (!entry.node.disabled) this.app.activate(event.target.dataset.node);
    // The browser has turned a checkbox over already; the app decides, and says so within a frame or two.
    if (entry.node.role === 'checkbox') setTimeout(() => { entry.element.checked = !!entry.node.checked; }, 200);
  }

  onKey(event) {
    const { target, key } = event;
    if (event.isComposing) return;
    if (key === 'Escape') {
      if (this.entries.get(target.dataset?.node)?.field) target.blur();
      else this.app.back();
    }
    if (key === 'Enter' && target.localName === 'input' && target.type === 'checkbox') target.click();
    const step = { ArrowRight: 1, ArrowDown: 1, ArrowLeft: -1, ArrowUp: -1 }[key];
    if (step && target.getAttribute('role') === 'tab') {
      const tabs = [...target.parentNode.children];
      tabs.at((tabs.indexOf(target) + step) % tabs.length).focus();
      event.preventDefault();
    }
  }

  tellFocus(element) {
    if (!this.quiet) this.app.focus(element?.dataset?.node ?? '');
  }
}
