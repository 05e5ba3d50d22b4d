// Runs before the page is drawn: tells the server whether this machine is set to dark, and asks once for the page in that look.
(() => {
  const name = "particlelims-machine-look";
  const dark = matchMedia("(prefers-color-scheme: dark)");
  const read = () => document.cookie.split("; ").find(pair => pair.startsWith(name + "="))?.split("=")[1];
  const write = () => {
    document.cookie = `${name}=${dark.matches ? "dark" : "light"}; path=/; max-age=31536000; samesite=strict`;
  };
  const before = read() ?? "light";
  const now = dark.matches ? "dark" : "light";
  write();
  dark.addEventListener("change", write);
  const chosen = document.documentElement.dataset.lookChoice;
  if (before !== now && chosen === "auto" && read() === now) {
    location.reload();
  }
})();
