import { svelte } from '@sveltejs/vite-plugin-svelte'
import { svelteTesting } from '@testing-library/svelte/vite'
import { defineConfig } from 'vitest/config'
import { notices } from './scripts/notices.mjs'
import manifest from './package.json' with { type: 'json' }

// Licences of what ships: the worker's bundle is built first and only collects.
const { collect, write } = notices()

export default defineConfig({
  plugins: [svelte(), svelteTesting(), write],
  define: {
    'import.meta.env.VITE_VERSION': JSON.stringify(manifest.version),
    'import.meta.env.VITE_SW': JSON.stringify(process.env['SW'] ?? 'on'),
  },
  worker: { format: 'es', plugins: () => [collect], rolldownOptions: { checks: { pluginTimings: false } } },
  build: {
    outDir: '../embed/dist',
    emptyOutDir: true,
    target: ['es2022', 'safari16.4'],
    modulePreload: { polyfill: false },
    // Small files must stay files: the content security policy refuses data: addresses.
    assetsInlineLimit: 0,
    // One style sheet: forty small ones cost more in requests than they save.
    cssCodeSplit: false,
    rolldownOptions: { checks: { pluginTimings: false } },
  },
  server: {
    fs: { allow: ['..'] },
    port: 8400,
    proxy: { '/api': 'http://localhost:7075', '/install': 'http://localhost:7075' },
  },
  test: {
    environment: 'jsdom',
    include: ['src/**/*.test.ts', 'sw/**/*.test.ts', 'scripts/**/*.test.ts'],
  },
})
