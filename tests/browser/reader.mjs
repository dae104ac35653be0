// A reader who sees nothing but what Chromium's accessibility tree gives, and acts by role and name.

import { ok, until } from "./expect.mjs";
import { heard, listen } from "./ear.mjs";
import { shown } from "./frames.mjs";

const raised = (text) => [...text].map((c) => ({ "−": "⁻", "+": "⁺" })[c] ?? "⁰¹²³⁴⁵⁶⁷⁸⁹"[c] ?? c).join("");
const says = (wanted, name) => (wanted instanceof RegExp ? wanted.test(name) : wanted === name);

export class Reader {
  /** Reads `page`, from now on also what is said. */
  static async on(page) {
    const reader = new Reader();
    reader.page = page;
    reader.session = await page.context().newCDPSession(page);
    await reader.session.send("Accessibility.enable");
    await page.evaluate(listen);
    return reader;
  }

  /** Everything that is there to be read: role, name, description, states, and what it stands in. */
  async read() {
    const { nodes } = await this.session.send("Accessibility.getFullAXTree");
    const byId = new Map(nodes.map((node) => [node.nodeId, node]));
    const one = (node) => ({
      // Also where only one of several may be open.
      role: node.role?.value.replace("TriangleGrouped", "Triangle"),
      name: (node.name?.value ?? "").replace(/\s+/g, " ").trim(),
      about: node.description?.value ?? "",
      value: node.value?.value ?? "",
      ...Object.fromEntries((node.properties ?? []).map(({ name, value }) => [name, value.value])),
      dom: node.backendDOMNodeId,
      within: () => {
        const all = [];
        for (let at = byId.get(node.parentId); at; at = byId.get(at.parentId)) if (!at.ignored) all.push({ role: at.role?.value, name: at.name?.value ?? "" });
        return all;
      },
      // As it is read: with raised signs where they are raised.
      text: () => {
        const text = (at, up) => (at.role?.value === "StaticText" ? (up ? raised(at.name.value) : at.name.value) : (at.childIds ?? []).map((id) => text(byId.get(id), up || at.role?.value === "superscript")).join(""));
        return text(node).replace(/\s+/g, " ").trim();
      },
    });
    return nodes.filter((node) => !node.ignored && node.role?.value !== "InlineTextBox").map(one);
  }

  /** All of `role` whose name is, or is like, `name`; inside of what is called `within`, if given. */
  async all(role, name = /./, within) {
    const nodes = await this.read();
    return nodes.filter((node) => node.role === role && says(name, node.name) && (!within || node.within().some((around) => says(within, around.name))));
  }

  /** The one of `role` with `name`; waits for it. */
  async one(role, name, within) {
    const found = await until(() => this.all(role, name, within), (found) => found.length > 0, `${role} ${name}`);
    ok(found.length === 1, `${found.length} of ${role} ${name}: ${found.map((node) => node.name)}`);
    return found[0];
  }

  async #call(node, what, ...values) {
    const { object } = await this.session.send("DOM.resolveNode", { backendNodeId: node.dom });
    const { result } = await this.session.send("Runtime.callFunctionOn", {
      objectId: object.objectId,
      functionDeclaration: String(what),
      arguments: values.map((value) => ({ value })),
      returnByValue: true,
    });
    await this.page.evaluate(shown);
    return result.value;
  }

  /** What a screen reader does to press, open or tick something. */
  async press(role, name, within) {
    const node = await this.one(role, name, within);
    ok(!node.disabled, `${role} ${name} is out of use`);
    await this.#call(node, function () {
      this.focus();
      this.click();
    });
  }

  async type(name, text, within) {
    const node = await this.one("textbox", name, within);
    await this.#call(node, function () {
      this.focus();
      this.select();
    });
    await this.session.send("Input.insertText", { text });
    await this.page.evaluate(shown);
  }

  /** Chooses the first of a list that begins with `option`. */
  async choose(name, option) {
    const node = await this.one("combobox", name);
    const done = await this.#call(
      node,
      function (label) {
        const found = [...this.options].find((o) => o.label.startsWith(label));
        if (found) {
          this.value = found.value;
          this.dispatchEvent(new Event("change", { bubbles: true }));
        }
        return Boolean(found);
      },
      option,
    );
    ok(done, `${name} offers no ${option}`);
  }

  /** The protocol leaves out aria-current, so it is asked for by itself. */
  async isCurrent(role, name, within) {
    return this.#call(await this.one(role, name, within), function () {
      return this.getAttribute("aria-current");
    });
  }

  /** Whatever has the focus. */
  async focused() {
    return (await this.read()).find((node) => node.focused && node.role !== "RootWebArea");
  }

  /** What was said since this was last asked. */
  heard() {
    return heard(this.page);
  }
}
