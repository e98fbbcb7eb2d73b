import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http'
import { getRequestListener } from '@hono/node-server'
import { serveStatic } from '@hono/node-server/serve-static'
import { Hono } from 'hono'
import { webFolder } from './build-web.ts'
import { securityHeaders } from './routes/security-headers.ts'
import { projectFolder, type Settings } from './settings.ts'

export interface Listening {
  readonly address: string
  close(): Promise<void>
}

/** What the server itself answers; everything else is the web part, whose sources have a folder `slices` too. */
const serverPath = /^\/api\/|^\/slices\/[^/]+\/(frozen\/)?[^/]+\.duckdb$/

/** Serves the API and the built web part on one port; in development the web part comes from its sources. */
export async function serve(app: Hono, settings: Settings): Promise<Listening> {
  const vite = settings.development ? await openDevelopmentServer() : null
  const whole = vite ? app : withBuiltWeb(app)
  const answer = getRequestListener(whole.fetch)
  const server = createServer((request: IncomingMessage, response: ServerResponse) => {
    if (vite && !serverPath.test(request.url ?? '')) vite.middlewares(request, response)
    else answer(request, response)
  })
  await listen(server, settings)
  const bound = server.address()
  const port = typeof bound === 'object' && bound ? bound.port : settings.port
  const shown = settings.host.includes(':') ? `[${settings.host}]` : settings.host
  return {
    address: `http://${shown}:${port}`,
    async close() {
      server.closeAllConnections()
      await new Promise((done) => server.close(done))
      await vite?.close()
    },
  }
}

/** Hashed assets are kept by browsers for good, the page itself is asked for each time. */
function withBuiltWeb(app: Hono): Hono {
  const whole = new Hono()
  whole.use(
    '*',
    async (context, next) => {
      if (serverPath.test(context.req.path)) return app.fetch(context.req.raw, context.env)
      return next()
    },
    securityHeaders(),
    serveStatic({
      root: webFolder,
      precompressed: true,
      onFound: (path, context) => {
        context.header(
          'cache-control',
          /[\\/]assets[\\/]/.test(path) ? 'public, max-age=31536000, immutable' : 'no-cache',
        )
      },
    }),
    serveStatic({ path: `${webFolder}/index.html`, precompressed: true }),
  )
  return whole
}

async function openDevelopmentServer() {
  const { createServer: createVite } = await import('vite')
  return createVite({
    configFile: `${projectFolder}web/vite.config.ts`,
    server: { middlewareMode: true, hmr: false },
    appType: 'spa',
  })
}

async function listen(server: Server, { host, port }: Settings): Promise<void> {
  await new Promise<void>((done, failed) => {
    server.once('error', (cause: NodeJS.ErrnoException) => {
      failed(
        cause.code === 'EADDRINUSE'
          ? new Error(
              `Port ${port} is taken by another program. Stop it, or set STILLGROUND_PORT to a free port.`,
              { cause },
            )
          : cause,
      )
    })
    server.listen(port, host, done)
  })
}
