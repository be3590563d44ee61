export { escapeHtml } from '../log/display/escape-html.js';
