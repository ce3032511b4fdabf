"""Sends bare lines as a gauge does: python3 bench_gauge.py HOST PORT LINE…"""
import socket
import sys

with socket.create_connection((sys.argv[1], int(sys.argv[2])), timeout=30) as connection:
    for line in sys.argv[3:]:
        connection.sendall(line.encode("latin-1") + b"\r\n")
