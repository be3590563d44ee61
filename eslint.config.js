import path from 'node:path';
import tseslint from 'typescript-eslint';

/** Layers of src/, lowest first; a file may import from its own layer and from those before it. */
const LAYERS = ['core', 'log', 'views', 'exercises', 'cells', 'kernel', 'lab', 'publish', 'cli'];
/** Layers of src/core/, lowest first, under the same rule. */
const CORE_LAYERS = ['units', 'working', 'sky', 'sextant', 'line', 'fix', 'methods', 'plan'];
const SRC = path.join(import.meta.dirname, 'src');

/** The layer and core layer a file under src/ belongs to; -1 where the rule does not apply. */
function placeOf(file) {
  const parts = path.relative(SRC, file).split(path.sep);
  if (parts[0] === '..' || parts.length < 2) return null;
  return {
    layer: LAYERS.indexOf(parts[0]),
    core: parts[0] === 'core' ? CORE_LAYERS.indexOf(parts[1]) : -1,
  };
}

const importArrows = {
  meta: { type: 'problem', schema: [], messages: { up: '{{from}} may not import from {{to}}' } },
  create(context) {
    const from = placeOf(context.filename);
    const check = (node) => {
      const spec = node.source?.value;
      if (!from || typeof spec !== 'string' || !spec.startsWith('.')) return;
      const to = placeOf(path.resolve(path.dirname(context.filename), spec));
      if (!to || to.layer < 0) return;
      if (to.layer > from.layer)
        context.report({
          node,
          messageId: 'up',
          data: { from: LAYERS[from.layer], to: LAYERS[to.layer] },
        });
      else if (to.layer === from.layer && to.core > from.core && from.core >= 0)
        context.report({
          node,
          messageId: 'up',
          data: { from: CORE_LAYERS[from.core], to: CORE_LAYERS[to.core] },
        });
    };
    return {
      ImportDeclaration: check,
      ExportNamedDeclaration: check,
      ExportAllDeclaration: check,
      ImportExpression: check,
    };
  },
};

export default tseslint.config(
  { ignores: ['dist', '.env', '.cache', 'notebooks', 'coverage', '**/*.golden.*'] },
  ...tseslint.configs.recommended,
  {
    files: ['src/**/*.ts', 'tests/**/*.ts'],
    plugins: { house: { rules: { 'import-arrows': importArrows } } },
    rules: {
      'house/import-arrows': 'error',
      '@typescript-eslint/no-unused-vars': ['error', { argsIgnorePattern: '^_' }],
      '@typescript-eslint/consistent-type-imports': 'error',
      eqeqeq: 'error',
    },
  },
  {
    files: ['src/core/**/*.ts'],
    rules: {
      'no-restricted-imports': [
        'error',
        {
          patterns: [
            {
              regex: '^(?!\\.|astronomy-engine$)',
              message: 'core has one runtime dependency, astronomy-engine',
            },
          ],
        },
      ],
    },
  },
);
