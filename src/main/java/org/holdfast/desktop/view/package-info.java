/**
 * Nodes of the window: thin, bound to {@code viewmodel}, with no rule of the trade in them. Colours are looked-up tokens
 * of the style sheets, sizes are logical pixels. Used on the thread of the window only.
 */
package org.holdfast.desktop.view;
