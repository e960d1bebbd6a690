/** Writes a number with its unit into the form around an element, as if it had been typed there. */
export function fillIn(from: Element, values: Readonly<Record<string, string>>): void {
  const form = from.closest("form");
  for (const [name, value] of Object.entries(values)) {
    const control = form?.elements.namedItem(name);
    if (!(control instanceof HTMLInputElement || control instanceof HTMLSelectElement)) continue;
    control.value = value;
    control.dispatchEvent(new Event("input", { bubbles: true }));
    control.dispatchEvent(new Event("change", { bubbles: true }));
  }
}
