import type { MiddlewareHandler } from 'hono'
import { secureHeaders } from 'hono/secure-headers'

/**
 * Strict content policy: nothing from anywhere else, no inline script. `wasm-unsafe-eval` lets the
 * database engine compile, `blob:` its workers; inline styles are what the map library sets on elements.
 * No cross-origin isolation headers: with them duckdb-wasm would choose its threaded build, which lost queries.
 */
export const securityHeaders = (): MiddlewareHandler =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'self'"],
      scriptSrc: ["'self'", "'wasm-unsafe-eval'"],
      workerSrc: ["'self'", 'blob:'],
      styleSrc: ["'self'", "'unsafe-inline'"],
      imgSrc: ["'self'", 'data:', 'blob:'],
      connectSrc: ["'self'", 'data:', 'blob:'],
      fontSrc: ["'self'"],
      objectSrc: ["'none'"],
      baseUri: ["'self'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
    // Labels are scanned and places noted along the works; nothing else of a device is asked for.
    permissionsPolicy: { camera: ['self'], geolocation: ['self'], microphone: [], payment: [] },
    crossOriginEmbedderPolicy: false,
    crossOriginOpenerPolicy: false,
    // A document that was given out has a stricter policy of its own.
    overwrite: false,
    referrerPolicy: 'no-referrer',
    xFrameOptions: 'DENY',
  })
