/**
 * The window: {@code state} holds what is chosen, {@code viewmodel} what is shown and can be done, {@code render} draws
 * pixels, {@code view} lays out nodes; this package starts it and puts them together. The only package that uses the
 * toolkit. Uses {@code app} and the records that it returns, and {@code figure}.
 */
package org.holdfast.desktop;
