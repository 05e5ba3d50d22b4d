// Small deeds of the shell that only the browser can do.
export function keepLook(choice) {
  document.cookie = `particlelims-look=${choice}; path=/; max-age=31536000; samesite=strict`;
  document.documentElement.dataset.lookChoice = choice;
}

export async function copy(text) {
  await navigator.clipboard.writeText(text);
}
