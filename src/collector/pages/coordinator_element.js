/** A new element with its properties and what is in it; text stays text. */
export function element(name, properties = {}, ...children) {
  const made = document.createElement(name);
  Object.assign(made, properties);
  made.append(...children);
  return made;
}
