// The page for addresses that do not exist, shown at any depth: finds the folder in which the site
// begins, by a file that only this folder has, and lets styles, scripts and links begin there.
{
  const sign = document.currentScript?.dataset.sign;
  const MOST = 20;

  const foldersAbove = (path) => {
    const parts = path.split("/").slice(1, -1).slice(0, MOST);
    const ends = [...parts.keys(), parts.length].reverse();
    const folders = ends.map((end) => ["", ...parts.slice(0, end), ""].join("/"));
    return folders.filter((folder) => !folder.startsWith("//")); // that would be another host
  };

  const hasSite = async (folder) => {
    const answer = await fetch(folder + sign, { method: "HEAD" }).catch(() => null);
    return answer?.ok && (answer.headers.get("content-type") ?? "").includes("css");
  };

  const begin = (folder) => {
    for (const name of ["href", "src"]) {
      for (const one of document.querySelectorAll(`[${name}]`)) {
        const was = one.getAttribute(name);
        if (/^(#|\/|[a-z]+:)/i.test(was)) continue;
        let now = one;
        if (one.matches("script")) now = document.createElement("script");
        else if (one.matches("link")) now = one.cloneNode();
        now.setAttribute(name, folder + was);
        // What has failed to load is asked for again only by a new element.
        if (now !== one) one.replaceWith(now);
      }
    }
  };

  const look = async () => {
    // From a disc a script may ask for no files, and only hosts answer with this page elsewhere.
    if (location.protocol === "file:") return;
    const [here, ...above] = foldersAbove(location.pathname);
    if (await hasSite(here)) return;
    for (const folder of above) {
      if (await hasSite(folder)) return begin(folder);
    }
  };

  if (typeof module !== "undefined") module.exports = { foldersAbove };
  else document.addEventListener("DOMContentLoaded", look);
}
