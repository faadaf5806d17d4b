// At a former address: on to where the page is now, with the place on it and what a reader had chosen.
{
  const to = new URL(document.currentScript.dataset.to, location.href);
  to.search = location.search;
  to.hash = location.hash;
  location.replace(to);
}
