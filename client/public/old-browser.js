/* In the words of old browsers, so that they can still read it. A file of its own: the page allows no script in itself. */
(() => {
  var modern = false;
  // biome-ignore-start lint/complexity/useOptionalChain: old browsers cannot read it
  try {
    modern =
      !!(HTMLScriptElement.supports && HTMLScriptElement.supports('importmap')) &&
      !!(window.CSS && CSS.supports && CSS.supports('container-type', 'size')) &&
      !!(window.WebSocket && window.crypto && window.crypto.getRandomValues);
  } catch (_error) {
    // Whatever it lacks, it is too old.
  }
  // biome-ignore-end lint/complexity/useOptionalChain: old browsers cannot read it
  if (modern) return;
  document.documentElement.setAttribute('data-old', '');
  document.getElementById('old').removeAttribute('hidden');
})();
