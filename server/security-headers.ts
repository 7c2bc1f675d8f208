const HOST = /^[\w.:[\]-]+$/;

/**
 * Headers sent with every answer. The page gets everything from the relay itself; the websockets to it are named,
 * since older browsers do not take them for 'self'. Pictures and the silent video that keeps the screen awake may
 * be made by the page.
 */
export const securityHeaders = (host: string | undefined): Readonly<Record<string, string>> => {
  const sockets = host !== undefined && HOST.test(host) ? ` ws://${host} wss://${host}` : '';
  return {
    'content-security-policy': [
      "default-src 'self'",
      `connect-src 'self'${sockets}`,
      "img-src 'self' data: blob:",
      "media-src 'self' data: blob:",
      "font-src 'self' data:",
      "worker-src 'self' blob:",
      "object-src 'none'",
      "base-uri 'none'",
      "form-action 'self'",
      "frame-ancestors 'none'",
    ].join('; '),
    'referrer-policy': 'no-referrer',
    'x-content-type-options': 'nosniff',
    'x-frame-options': 'DENY',
  };
};
