/**
 * Puts text on the clipboard. On http:// in a local network the clipboard API is missing: there the element's
 * text is selected and the browser asked to copy what is selected.
 * @returns false where neither works: the text stays selected, to be copied by hand
 */
export const copyText = async (text: string, shownIn: HTMLElement | null): Promise<boolean> => {
  const clipboard: Clipboard | undefined = navigator.clipboard;
  if (clipboard) {
    try {
      await clipboard.writeText(text);
      return true;
    } catch (error) {
      console.info('The clipboard may not be written; selecting the text instead.', error);
    }
  }
  const selection = window.getSelection();
  if (!shownIn || !selection) return false;
  selection.selectAllChildren(shownIn);
  return document.execCommand('copy');
};
