import js from '@eslint/js'
import globals from 'globals'
import ts from 'typescript-eslint'
import svelte from 'eslint-plugin-svelte'
import prettier from 'eslint-config-prettier'
import svelteConfig from './svelte.config.js'

/** Forbids imports by pattern. In flat config a later block replaces an earlier one, so each lists all it needs. */
const forbid = (...group) => [
  'error',
  { patterns: [{ group, message: 'Wrong layer: see DEVELOPERS.md, "The import rule".' }] },
]
const shells = ['electron', 'electron/*']
const node = ['node:*', 'fs', 'fs/*', 'path', 'os', 'http', 'child_process']

export default ts.config(
  { ignores: ['out/**', 'dist/**', 'coverage/**', 'node_modules/**'] },
  js.configs.recommended,
  ts.configs.strict,
  svelte.configs.recommended,
  prettier,
  svelte.configs.prettier,
  {
    languageOptions: { globals: { ...globals.browser, ...globals.node } },
    rules: {
      '@typescript-eslint/no-non-null-assertion': 'off',
      '@typescript-eslint/consistent-type-imports': 'error',
      eqeqeq: ['error', 'always'],
    },
  },
  {
    files: ['**/*.svelte', '**/*.svelte.ts'],
    languageOptions: { parserOptions: { parser: ts.parser, svelteConfig } },
  },
  {
    files: ['src-core/**/*.ts'],
    rules: {
      'no-restricted-imports': forbid(
        '**/src-main/**',
        '**/src-renderer/**',
        ...shells,
        'svelte',
        'svelte/*',
        'konva',
        'konva/*',
        ...node,
      ),
      'no-restricted-globals': [
        'error',
        'window',
        'document',
        'localStorage',
        'process',
        'fetch',
        'Date',
        'performance',
        'Buffer',
        'setTimeout',
      ],
      'no-restricted-properties': ['error', { object: 'Math', property: 'random' }],
    },
  },
  {
    files: ['src-renderer/**/*.ts', 'src-renderer/**/*.svelte'],
    rules: { 'no-restricted-imports': forbid('**/src-main/**', ...shells, ...node) },
  },
  {
    files: ['src-renderer/editor/**/*.ts', 'src-renderer/state/**/*.ts'],
    rules: {
      'no-restricted-imports': forbid(
        '**/src-main/**',
        ...shells,
        ...node,
        'konva',
        'konva/*',
        '**/canvas/**',
        '**/panels/**',
        '**/*.svelte',
      ),
    },
  },
  {
    // They are given what they show and tell what is done with them.
    files: ['src-renderer/components/**/*.ts', 'src-renderer/components/**/*.svelte'],
    rules: {
      'no-restricted-imports': forbid('**/src-main/**', ...shells, ...node, '**/state/**', '**/panels/**'),
    },
  },
  {
    // Konva painting only: it is told what to show.
    files: ['src-renderer/canvas/**/*.ts'],
    rules: {
      'no-restricted-imports': forbid(
        '**/src-main/**',
        ...shells,
        ...node,
        '**/panels/**',
        '**/state/**',
        '**/*.svelte',
        'svelte',
        'svelte/*',
      ),
    },
  },
  {
    files: ['src-main/**/*.ts'],
    rules: {
      'no-restricted-imports': forbid('**/src-renderer/**', 'svelte', 'svelte/*', 'konva', 'konva/*'),
    },
  },
)
