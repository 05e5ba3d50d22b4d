// Opens the browser's own print dialog.
export function printPage() {
  window.print();
}
