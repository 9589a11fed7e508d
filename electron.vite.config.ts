import { resolve } from 'node:path'
import { defineConfig } from 'electron-vite'
import { svelte } from '@sveltejs/vite-plugin-svelte'

const root = import.meta.dirname

export default defineConfig({
  main: {
    build: {
      outDir: resolve(root, 'out/main'),
      rollupOptions: {
        input: {
          index: resolve(root, 'src-main/index.ts'),
          bookReader: resolve(root, 'src-main/services/book/reader.ts'),
          painter: resolve(root, 'src-main/png/painterProgram.ts'),
        },
      },
    },
  },
  preload: {
    build: {
      outDir: resolve(root, 'out/preload'),
      // A sandboxed preload must be CommonJS and one single file.
      rollupOptions: {
        input: { index: resolve(root, 'src-main/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: resolve(root, 'src-renderer'),
    // The renderer's root is a sub-folder, so the plugin would not find the configuration by itself.
    plugins: [svelte({ configFile: resolve(root, 'svelte.config.js') })],
    worker: { format: 'es' },
    build: {
      outDir: resolve(root, 'out/renderer'),
      minify: true,
      rollupOptions: { input: { index: resolve(root, 'src-renderer/index.html') } },
    },
  },
})
