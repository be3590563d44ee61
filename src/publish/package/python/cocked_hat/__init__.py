"""Cocked Hat for Jupyter: a TypeScript kernel, a JupyterLab extension and a command line, with the Node.js they run on.

Everything is JavaScript that Node runs; this package only finds both and starts one with the other.
"""
