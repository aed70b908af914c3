/**
 * The command line: options in, words or one JSON document out, and an exit code.
 *
 * <p>Exit codes: 0 done (for many inputs: at least one was read), 1 the data do not allow it or a check failed, 2 wrong
 * use. Standard output carries the result and nothing else; progress and messages go to standard error. A command talks
 * to {@code app} and to the records that it returns, never to files, series or stores itself.
 */
package org.holdfast.cli;
