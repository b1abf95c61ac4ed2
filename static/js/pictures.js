// Photos are made smaller before they are sent, it is told how far they have come, and nothing is lost on the way:
// the button keeps its key, so that what is sent again counts once.
(() => {
  "use strict";
  const SIDE = 2560; // as long as the largest size that is kept
  const on = (name, act) => document.addEventListener(`htmx:${name}`, act);
  const tell = (id, words) => {
    const line = document.createElement("p");
    line.textContent = words;
    document.getElementById(id)?.replaceChildren(line);
  };
  const takesPictures = (element) => element instanceof HTMLFormElement && element.hasAttribute("data-pictures");

  // Turned the way it was held, as a JPEG; what this browser cannot read, or what is no larger, goes as it is. What the
  // garage may not read, and this browser does, goes as a JPEG in any case.
  const READ = ["image/jpeg", "image/png", "image/webp"];
  const shrink = async (file) => {
    try {
      const picture = await createImageBitmap(file, { imageOrientation: "from-image" });
      const scale = Math.min(1, SIDE / Math.max(picture.width, picture.height));
      const canvas = document.createElement("canvas");
      canvas.width = Math.round(picture.width * scale);
      canvas.height = Math.round(picture.height * scale);
      canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
      const small = await new Promise((done) => { canvas.toBlob(done, "image/jpeg", 0.85); });
      if (!small || (READ.includes(file.type) && small.size >= file.size)) return file;
      return new File([small], `${file.name.replace(/\.\w+$/, "")}.jpg`, { type: "image/jpeg" });
    } catch {
      return file;
    }
  };

  // Once: sent again it must be the same to the byte.
  on("confirm", (event) => {
    const form = event.detail.elt;
    if (!takesPictures(form)) return;
    const inputs = [...form.querySelectorAll("input[type=file]")];
    const fresh = inputs.filter((input) => !input.dataset.shrunk && input.files.length);
    if (!fresh.length) return;
    event.preventDefault();
    tell("status", "Making the photos smaller…");
    Promise.all(fresh.map(async (input) => {
      const kept = new DataTransfer();
      for (const file of input.files) kept.items.add(await shrink(file));
      input.files = kept.files;
      input.dataset.shrunk = "1";
    })).then(() => event.detail.issueRequest());
  });
  document.addEventListener("change", ({ target }) => {
    if (target.type === "file") delete target.dataset.shrunk;
  });

  on("xhr:progress", ({ detail }) => {
    const { elt, loaded, total } = detail;
    if (takesPictures(elt) && total) tell("status", `Sending… ${Math.floor(100 * loaded / total)} %`);
  });

  // Who signed in again in another tab has another token than the one that this page was drawn with.
  on("configRequest", ({ detail }) => {
    if (!takesPictures(detail.elt)) return;
    const token = document.cookie.match(/(?:^|; )(?:__Host-csrf|csrftoken)=([^;]+)/);
    if (token) detail.parameters.set("csrfmiddlewaretoken", token[1]);
  });

  // Signed out meanwhile: this page stays, with all that is on it.
  on("beforeOnLoad", (event) => {
    const { elt, xhr } = event.detail;
    if (!takesPictures(elt) || xhr.status !== 401) return;
    event.preventDefault();
    tell("status", "");
    const link = document.createElement("a");
    const words = "Sign in in another tab";
    Object.assign(link, { href: "/sign-in/", target: "_blank", rel: "noopener", textContent: words });
    const line = document.createElement("p");
    line.append("You were signed out. ", link, ", then press the button here again: nothing is lost.");
    document.getElementById("alert")?.replaceChildren(line);
  });
})();
